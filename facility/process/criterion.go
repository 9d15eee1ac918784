package process

import (
	"errors"
	"fmt"
	"math"
)

// Where says in which part of the process a criterion must be met.
type Where int

const (
	InVessel          Where = iota
	InVesselAndCuring       // the histories of both, one after the other
)

// Kind is the form of a time-temperature criterion.
type Kind int

const (
	// Hold asks for Hours in a row at or above Temperature.
	Hold Kind = iota
	// MeanAbove asks for Hours above Temperature with a mean above Mean.
	MeanAbove
	// HoldWithPeak asks for Hours in a row at or above Temperature and, within
	// them, PeakHours above Peak.
	HoldWithPeak
	// Lethality asks that the time-temperature equation be fulfilled:
	//
	//	D = Factor / 10^(Exponent·T) days, counted at and above Temperature,
	//	never less than Hours
	//
	// Time at changing temperature adds up as fractions of the D of each
	// reading.
	Lethality
	// Aired asks that air reach at least Share of the load: temperatures, which are
	// those where air is, say nothing of the rest.
	Aired
)

// Criterion is a time-temperature requirement as data.
type Criterion struct {
	Name        string
	Kind        Kind
	Where       Where
	Temperature float64 // °C
	Hours       float64
	Mean        float64 // °C, MeanAbove
	// Summed lets MeanAbove add up time from several stretches above
	// Temperature instead of asking for one unbroken stretch.
	Summed           bool
	Peak, PeakHours  float64 // °C and h, HoldWithPeak
	Factor, Exponent float64 // d and 1/°C, Lethality
	Share            float64 // 0…1, Aired
}

// PathogenReduction is the requirement for enclosed vessels and aerated static
// piles: 55 °C or more for three consecutive days (40 CFR 503 App. B, from
// memory; the same in 40 CFR 257 App. II, read).
func PathogenReduction() Criterion {
	return Criterion{Name: "pathogen reduction", Kind: Hold, Temperature: 55, Hours: 72}
}

// VectorAttractionReduction is 14 days above 40 °C with a mean above 45 °C
// (40 CFR 503.33(b)(5), from memory), in vessel and curing together.
func VectorAttractionReduction() Criterion {
	return Criterion{Name: "vector attraction reduction", Kind: MeanAbove, Where: InVesselAndCuring,
		Temperature: 40, Hours: 14 * hoursPerDay, Mean: 45}
}

// TimeTemperature is the equation for solids of 7 % and more: D =
// 131,700,000/10^(0.1400 T) d, at 50 °C and above, 20 min at least (15A NCAC
// 02T .1106, read; 40 CFR 503.32(a)(3), from memory).
func TimeTemperature() Criterion {
	return Criterion{Name: "time-temperature equation", Kind: Lethality,
		Temperature: 50, Hours: 1.0 / 3, Factor: 131.7e6, Exponent: 0.1400}
}

// TimeTemperatureThin is the equation for solids below 7 %: 50,070,000 in place
// of 131,700,000, 30 min at least (same sources).
func TimeTemperatureThin() Criterion {
	c := TimeTemperature()
	c.Name, c.Factor, c.Hours = "time-temperature equation, thin", 50.07e6, 0.5
	return c
}

// DefaultCriteria returns what a planner asks for unless he says otherwise.
func DefaultCriteria() []Criterion {
	return []Criterion{PathogenReduction(), VectorAttractionReduction()}
}

// nearMean is how far the mean temperature of a pile over two weeks may lie above that of
// integration where a table tells it, K; no thermometer tells so much either.
const nearMean = 0.5

// Surely returns the criterion as it is asked of a course that a table tells, where nothing
// can be mended later: a mean has to be above what is asked by as much as it may be off.
// Where air holds just the mean that is asked for, a quarter of the loads that do not pass
// would otherwise pass by a hair.
func (c Criterion) Surely() Criterion {
	if c.Kind == MeanAbove {
		c.Mean += nearMean
	}
	return c
}

// Required returns the time that a Lethality criterion asks for at a constant
// t °C, h: +Inf below its least temperature.
func (c Criterion) Required(t float64) float64 {
	if t < c.Temperature {
		return math.Inf(1)
	}
	return max(c.Hours, hoursPerDay*c.Factor/math.Pow(10, c.Exponent*t))
}

// Validate reports what makes the criterion impossible to judge.
func (c Criterion) Validate() error {
	switch {
	case c.Name == "":
		return errors.New("criterion: a name is needed")
	case c.Kind < Hold || c.Kind > Aired:
		return fmt.Errorf("criterion %q: unknown kind %d", c.Name, c.Kind)
	case c.Kind == Aired:
		return c.validateAired()
	case c.Where != InVessel && c.Where != InVesselAndCuring:
		return fmt.Errorf("criterion %q: unknown place %d", c.Name, c.Where)
	case !(c.Temperature > 0 && c.Temperature < 100):
		return fmt.Errorf("criterion %q: temperature %g °C is not between 0 and 100", c.Name, c.Temperature)
	case !(c.Hours > 0):
		return fmt.Errorf("criterion %q: duration must be positive", c.Name)
	case c.Kind == MeanAbove && !(c.Mean >= c.Temperature):
		return fmt.Errorf("criterion %q: the mean %g °C must not be below the least temperature", c.Name, c.Mean)
	case c.Kind == HoldWithPeak && !(c.Peak >= c.Temperature && c.PeakHours > 0 && c.PeakHours <= c.Hours):
		return fmt.Errorf("criterion %q: the peak must be above the hold and no longer than it", c.Name)
	case c.Kind == Lethality && !(c.Factor > 0 && c.Exponent > 0):
		return fmt.Errorf("criterion %q: factor and exponent must be positive", c.Name)
	}
	return nil
}
