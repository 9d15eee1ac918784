package process

import (
	"math"
	"slices"
	"time"

	"loamcast/facility/material"
)

// Cause is a reason why a load stays cold.
type Cause int

const (
	AirSpaceBelowMinimum Cause = iota // of the volume
	OxygenLimited                     // % by volume, the blower giving all it has
	TooWet                            // moisture, of the wet mass
	TooDry                            // moisture, of the wet mass
	TooLittleDegradable               // kJ per kg of water
	HeatLost                          // of the heat, through the surface and as warm dry air
	AirDoesNotReach                   // share of the load that air reaches
)

// Finding is a limit that a load breaks, in the unit of its cause, and how much
// warmer the load would get, °C at the peak, if that alone were put right.
type Finding struct {
	Cause        Cause
	Value, Limit float64
	Gain         float64
}

// Diagnose tells what keeps a load cold: the limits that it breaks, the one
// that costs most first. Each is tried out by integrating the load once more
// with that limit met and all else as it is.
func (m *Model) Diagnose(p material.Parcel, month time.Month, maxHours float64) ([]Finding, error) {
	c, err := m.Course(p, month, maxHours)
	if err != nil {
		return nil, err
	}
	var found []Finding
	for _, s := range m.suspicions(c) {
		if !s.broken {
			continue
		}
		better, err := s.model.Course(s.load, month, maxHours)
		if err != nil {
			return nil, err
		}
		s.Gain = better.PeakTemperature() - c.PeakTemperature()
		found = append(found, s.Finding)
	}
	slices.SortStableFunc(found, func(a, b Finding) int {
		switch {
		case a.Gain > b.Gain:
			return -1
		case a.Gain < b.Gain:
			return 1
		}
		return 0
	})
	return found, nil
}

// suspicion is a limit with the model and the load that would meet it.
type suspicion struct {
	Finding
	broken bool
	model  Model
	load   material.Parcel
}

func (m *Model) suspicions(c *Course) []suspicion {
	l, p := m.Limits, c.Initial
	space := m.Bulk.FreeAirSpace(p)
	oxygen := c.starved()
	moisture := p.Moisture()
	heat := m.readyHeat(p)
	lost := 0.0
	if g := c.Energy.Generated; g > 0 {
		lost = (c.Energy.Wall + c.Energy.AirDry) / g
	}

	all := []suspicion{
		{Finding: Finding{Cause: AirSpaceBelowMinimum, Value: space, Limit: l.FreeAirSpace}, broken: space < l.FreeAirSpace},
		{Finding: Finding{Cause: OxygenLimited, Value: oxygen, Limit: l.Oxygen}, broken: oxygen < l.Oxygen},
		{Finding: Finding{Cause: TooWet, Value: moisture, Limit: l.Wet}, broken: moisture > l.Wet},
		{Finding: Finding{Cause: TooDry, Value: moisture, Limit: l.Dry}, broken: moisture < l.Dry},
		{Finding: Finding{Cause: TooLittleDegradable, Value: heat, Limit: l.HeatPerWater}, broken: heat < l.HeatPerWater},
		{Finding: Finding{Cause: HeatLost, Value: lost, Limit: l.Lost}, broken: lost > l.Lost},
		{Finding: Finding{Cause: AirDoesNotReach, Value: c.Reached, Limit: m.mostReached()}, broken: c.Reached < m.mostReached()},
	}
	for i := range all {
		all[i].model, all[i].load = *m, p
		all[i].putRight()
	}
	return all
}

// putRight changes the model or the load so that the one limit is met.
func (s *suspicion) putRight() {
	m := &s.model
	switch s.Cause {
	case AirSpaceBelowMinimum:
		m.Kinetics.Airways = Logistic{Slope: 1, Offset: -100} // no limitation
		m.AirPath = m.AirPath.open()
	case AirDoesNotReach:
		m.AirPath = m.AirPath.open()
	case OxygenLimited:
		m.Blower.Capacity *= 10
		m.Blower.PerDry *= 10
	case TooWet, TooDry:
		s.load.Water = s.load.Dry() * s.Limit / (1 - s.Limit)
	case TooLittleDegradable:
		if s.Value > 0 {
			m.HeatOfOxygen *= max(1, s.Limit/s.Value)
		}
	case HeatLost:
		m.Enclosure.Conductance = 0
		m.Program = slices.Clone(m.Program)
		for i := range m.Program {
			m.Program[i].MinFlow = 0
		}
	}
}

// starved returns the lowest pore oxygen while the blower gave all it had, %;
// that of air if it never did.
func (c *Course) starved() float64 {
	least := inletOxygen
	for _, s := range c.Samples {
		if s.Full {
			least = math.Min(least, s.Oxygen)
		}
	}
	return least
}

// readyHeat returns the heat of the rapidly and readily degradable matter per kg of water,
// kJ/kg, +Inf without water. Coarse matter counts by its slower rate.
func (m *Model) readyHeat(p material.Parcel) float64 {
	ready := p.Fine.Degradable() + m.Kinetics.CoarseFactor*p.Coarse.Degradable()
	heat := ready * m.Chemistry.Readily.O2 * m.HeatOfOxygen
	if p.Water <= 0 {
		return math.Inf(1)
	}
	return heat / p.Water
}
