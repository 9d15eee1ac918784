package process

import (
	"time"

	"loamcast/facility/material"
	"loamcast/facility/moistair"
)

// Heat of ice: what thawing takes, kJ/kg, and heat capacity, kJ/(kg·K) (handbook
// values, from memory).
const (
	FusionHeat = 334
	iceHeat    = 2.1
)

// A load whose water may freeze is followed by its level: the temperature that it
// would have with the heat in it if its water could not freeze. Above 0 °C that is
// its temperature; below, the load stays at 0 °C until the heat that its water gives
// up in freezing is gone. So the heat account needs no part of its own for ice.

// felt returns the temperature, °C, of dry solids and water, kg each, at a level.
func (h HeatCapacity) felt(level, dry, water float64) float64 {
	if level >= 0 || h.Fusion == 0 {
		return level
	}
	liquid := h.Of(dry, water)
	left := level*liquid + h.Fusion*water // heat above that of ice at 0 °C, kJ
	if left >= 0 {
		return 0
	}
	return left / (h.Solids*dry + iceHeat*water)
}

// level is the level of dry solids and water, kg each, at t °C: the inverse of felt. What
// is below 0 °C is ice all through.
func (h HeatCapacity) level(t, dry, water float64) float64 {
	if t >= 0 || h.Fusion == 0 {
		return t
	}
	return (t*(h.Solids*dry+iceHeat*water) - h.Fusion*water) / h.Of(dry, water)
}

// justFrozen is the temperature, °C, of what is taken for ice at 0 °C.
const justFrozen = -1e-6

// Ice returns the temperature, °C, at which matter of t °C that is freezing goes on when
// only that is known of it: what is at 0 °C is taken for ice all through, for its
// temperature does not say how much of it is. That warns. ok is false for what is not
// freezing.
func (h HeatCapacity) Ice(t float64) (start float64, ok bool) {
	return min(t, justFrozen), t <= 0 && h.Fusion > 0
}

// chill returns what the level of a load of a heat capacity, kJ/K, is lowered by
// since some of its water, kg, came to it at t °C, as ice if that is below freezing.
func (h HeatCapacity) chill(t, water, capacity float64) float64 {
	if t >= 0 || h.Fusion == 0 || capacity == 0 {
		return 0
	}
	return water * (h.Fusion + (moistair.WaterHeat-iceHeat)*t) / capacity
}

// felt returns the temperature of the load at a level, °C.
func (r *run) felt(level float64) float64 {
	if level >= 0 {
		return level
	}
	return r.m.Heat.felt(level, r.parcel.Dry(), r.parcel.Water)
}

// Intake is the temperature at which matter comes to the mixer, by month, °C: the
// cake with all other fine matter and its water, and the chips with theirs, fresh or
// recovered.
type Intake struct{ Cake, Chips [12]float64 }

// startLevel returns the level of a load of some matter when its parts come together in a
// month.
func (m *Model) startLevel(p *material.Matter, month time.Month) float64 {
	at, held := m.loading(month), m.Bulk.CoarseWater(p)
	whole := m.Heat.Of(p.Dry(), p.Water)
	level := at.initial(m.Heat.Of(p.Coarse, held), whole)
	if m.Heat.Fusion == 0 {
		return level
	}
	return level - m.Heat.chill(at.Fine, p.Water-held, whole) - m.Heat.chill(at.Chips, held, whole)
}

// loading returns the temperatures of the parts of a load in a month.
func (m *Model) loading(month time.Month) Loading {
	if in := m.Intake; in != nil {
		return Loading{Fine: in.Cake[month-1], Chips: in.Chips[month-1]}
	}
	return Loading{Fine: m.Loading.Fine, Chips: max(m.Site.Temperature[month-1], m.Loading.Chips)}
}

// Mixed returns the heat that the parts of a load bring to the mixer in a month, kJ above
// that of solids and water at 0 °C: fine matter with its water, and chips with theirs.
func (m *Model) Mixed(p material.Parcel, month time.Month) (fine, chips float64) {
	of := p.Matter()
	at, held := m.loading(month), m.Bulk.CoarseWater(&of)
	coarse := m.Heat.Of(of.Coarse, held)
	fine = at.Fine*(m.Heat.Of(of.Dry(), of.Water)-coarse) - m.Heat.chill(at.Fine, p.Water-held, 1)
	return fine, at.Chips*coarse - m.Heat.chill(at.Chips, held, 1)
}

func (in *Intake) validate() error {
	if in == nil {
		return nil
	}
	for _, list := range [...]*[12]float64{&in.Cake, &in.Chips} {
		for _, t := range list {
			if err := degreesBetween("intake", t, coldestIntake, hottestIntake); err != nil {
				return err
			}
		}
	}
	return nil
}

const coldestIntake, hottestIntake = -45, 80
