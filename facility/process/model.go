package process

import (
	"errors"
	"fmt"
	"math"

	"loamcast/facility/material"
)

const (
	hoursPerDay  = 24
	joulesPerKWh = 3.6e6
	inletOxygen  = 20.95 // % by volume of dry air
)

// Model is everything that does not change from load to load.
type Model struct {
	Kinetics  Kinetics
	Chemistry material.Chemistry
	Bulk      material.Bulk
	Heat      HeatCapacity
	// HeatOfOxygen is the heat set free per kg of oxygen taken up, kJ/kg.
	HeatOfOxygen float64
	Enclosure    Enclosure
	Blower       Blower
	AirPath      AirPath
	Program      []Segment
	Loading      Loading
	Intake       *Intake // in place of Loading, nil if that holds
	Site         Site
	Criteria     []Criterion
	Limits       Limits
	// Tipped is what a load loses before it lies in the pile; nil where a pile begins at
	// Loading whatever was tipped.
	Tipped *Handling
	// Turning is when the pile is turned.
	Turning Turning
	// Step is the time step of the integration, h.
	Step float64
}

// Validate reports the first thing that makes the model impossible.
func (m *Model) Validate() error {
	if len(m.Program) == 0 {
		return errors.New("program: at least one segment is needed")
	}
	if !(m.Step > 0 && m.Step <= 1) {
		return fmt.Errorf("time step %g h is not between 0 and 1", m.Step)
	}
	if !(m.HeatOfOxygen > 0) || math.IsInf(m.HeatOfOxygen, 0) {
		return fmt.Errorf("heat of oxygen uptake %g kJ/kg must be positive", m.HeatOfOxygen)
	}
	checks := []error{m.Kinetics.Validate(), m.Chemistry.Microbes.Validate(), m.Heat.validate(), m.Enclosure.validate(), m.Blower.validate(), m.Loading.validate(), m.Intake.validate(), m.Site.validate(), m.Limits.validate(), m.Bulk.Structure.Validate(), m.AirPath.validate()}
	if m.Tipped != nil {
		checks = append(checks, m.Tipped.validate())
	}
	checks = append(checks, m.Turning.validate(m))
	for _, s := range m.Program {
		checks = append(checks, s.validate())
	}
	for _, c := range m.Criteria {
		checks = append(checks, c.Validate())
	}
	for _, err := range checks {
		if err != nil {
			return err
		}
	}
	return nil
}
