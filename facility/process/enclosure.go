package process

import (
	"errors"
	"fmt"
)

// Enclosure is what holds a load: a vessel or a pile.
type Enclosure struct {
	Name string
	// Area is the outside surface through which heat leaks, m2, and
	// AreaPerVolume what each m3 of load adds to it: a vessel has the first, a
	// long curing pile the second.
	Area, AreaPerVolume float64
	// Conductance is the heat transfer coefficient U of the surface, W/(m2·K).
	Conductance float64
	// Exhaust is the relative humidity at which air leaves the load, 0…1.
	Exhaust float64
	// Returned is the fraction of the evaporated water that condenses on lid
	// and walls and runs back into the load. Its heat is lost through the lid.
	Returned float64
	// Holding is the water that fine matter can hold, kg per kg dry; what is
	// above that and the chips' own holding drains as leachate with the time
	// constant Drainage, h.
	Holding, Drainage float64
}

// Blower is the share of the air supply that one load can have.
type Blower struct {
	// Capacity is the largest flow for a load, m3/h at inlet conditions, and
	// PerDry what each initial dry tonne adds to it: a vessel's duct has the
	// first, a pile's floor the second.
	Capacity, PerDry float64
	// PressureDrop is the pressure that the blower works against, Pa, and
	// Efficiency that of blower, drive and motor together, 0…1. A pile without
	// a blower has no pressure drop.
	PressureDrop, Efficiency float64
	// LeastOxygen is the pore oxygen that the control tries to keep, % by
	// volume.
	LeastOxygen float64
	// Turndown is the least share of its largest flow at which the blower runs,
	// 0…1. Where less is asked for it blows on and off, so that the mean is right
	// and the flow while it blows is not below that share.
	Turndown float64
}

// Site is the air around the plant.
type Site struct {
	Altitude              float64     // m
	Temperature, Humidity [12]float64 // monthly means, °C and 0…1
}

// Loading gives the temperature of a load at the start: fine matter and its
// water at Fine, chips and theirs at the month's mean but not below Chips
// (a heap does not freeze through).
type Loading struct{ Fine, Chips float64 }

func (e Enclosure) validate() error {
	switch {
	case !(e.Area >= 0 && e.AreaPerVolume >= 0 && e.Conductance >= 0):
		return errors.New("enclosure: surface and conductance must not be negative")
	case !(e.Exhaust > 0 && e.Exhaust <= 1):
		return fmt.Errorf("enclosure: exhaust humidity %g is not between 0 and 1", e.Exhaust)
	case !(e.Returned >= 0 && e.Returned < 1):
		return fmt.Errorf("enclosure: returned condensate %g is not between 0 and 1", e.Returned)
	case !(e.Holding > 0 && e.Drainage > 0):
		return errors.New("enclosure: water holding and drainage time must be positive")
	}
	return nil
}

// leak returns the heat loss per degree around a load of a volume in m3,
// kJ/(h·K).
func (e Enclosure) leak(volume float64) float64 {
	const kJPerWattHour = 3.6
	return kJPerWattHour * e.Conductance * (e.Area + e.AreaPerVolume*volume)
}

func (b Blower) validate() error {
	switch {
	case !(b.Capacity >= 0 && b.PerDry >= 0 && b.Capacity+b.PerDry > 0):
		return errors.New("blower: a capacity is needed; give a passive pile its natural draught")
	case !(b.PressureDrop >= 0 && b.Efficiency > 0 && b.Efficiency <= 1):
		return errors.New("blower: pressure drop must not be negative and efficiency must be between 0 and 1")
	case !(b.LeastOxygen >= 0 && b.LeastOxygen < inletOxygen):
		return fmt.Errorf("blower: least oxygen %g %% is not between 0 and %g %%", b.LeastOxygen, inletOxygen)
	}
	return b.validateTurndown()
}

func (l Loading) validate() error {
	for _, t := range [...]float64{l.Fine, l.Chips} {
		if err := degreesBetween("loading", t, 0, hottestIntake); err != nil {
			return err
		}
	}
	return nil
}

// degreesBetween refuses a temperature that is not between two, °C; the higher one is out.
func degreesBetween(what string, t, low, high float64) error {
	if t >= low && t < high {
		return nil
	}
	return fmt.Errorf("%s: a temperature of %g °C is not between %g and %g", what, t, low, high)
}

// coldestSite and hottestSite bound the monthly means outdoors, °C.
const coldestSite, hottestSite = -60, 55

func (s Site) validate() error {
	if !(s.Altitude >= -500 && s.Altitude <= 6000) {
		return fmt.Errorf("site: altitude %g m is not between -500 and 6,000", s.Altitude)
	}
	for i := range s.Temperature {
		if t := s.Temperature[i]; !(t >= coldestSite && t <= hottestSite) {
			return fmt.Errorf("site: month %d: mean temperature %g °C is not between %d and %d", i+1, t, coldestSite, hottestSite)
		}
		if h := s.Humidity[i]; !(h >= 0 && h <= 1) {
			return fmt.Errorf("site: month %d: humidity %g is not between 0 and 1", i+1, h)
		}
	}
	return nil
}

// initial returns the temperature of a load when its parts come together, without ice, by
// the heat capacity of its coarse matter with its water, and of the whole, kJ/K.
func (l Loading) initial(coarse, whole float64) float64 {
	if whole == 0 {
		return l.Fine
	}
	return l.Fine + (l.Chips-l.Fine)*coarse/whole
}
