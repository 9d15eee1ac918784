package plant

import (
	"errors"
	"fmt"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Feed is the production of dewatered solids:
//
//	dry solids per day = Base × growth × month × weekday × noise
type Feed struct {
	Base    float64     // kg dry per day, mean of the first year without pulses
	Growth  Growth      // factor on Base over the years, 1 in the mean of the first
	Month   [12]float64 // relative; scaled to a mean of 1
	Weekday [7]float64  // relative, Sunday first; scaled to a mean of 1
	// Noise is day-to-day variation with a mean of 1, autocorrelated.
	Noise random.AR1Lognormal
	// CakeSolids is the solids content of cake by month, 0…1, and SolidsCV
	// the coefficient of variation of its day-to-day noise.
	CakeSolids [12]float64
	SolidsCV   float64
	Pulses     []Pulse // of cake of the month's CakeSolids
	// Sources are the plants that send the cake, if more than one does: Base, Growth,
	// Month, Weekday and CakeSolids are then what they are together, by [Feed.Combine].
	Sources []Source
}

func (f Feed) validate() error {
	var errs []error
	if !(f.Base > 0) {
		errs = append(errs, errors.New("the production of solids must be positive"))
	}
	for _, v := range append(f.Month[:], f.Weekday[:]...) {
		if !(v >= 0) {
			errs = append(errs, fmt.Errorf("production factor %g is negative", v))
		}
	}
	if mean(f.Month[:]) == 0 || mean(f.Weekday[:]) == 0 {
		errs = append(errs, errors.New("production factors are all zero"))
	}
	errs = append(errs, validSolids(f.CakeSolids, ""))
	for i := range f.Sources {
		errs = append(errs, f.Sources[i].validate())
	}
	if f.SolidsCV < 0 || f.SolidsCV > 0.3 {
		errs = append(errs, fmt.Errorf("cake solids vary by %.3g %%; 0 to 30 %% can be simulated", 100*f.SolidsCV))
	}
	if f.Growth == nil {
		errs = append(errs, errors.New("growth is missing"))
	}
	return errors.Join(errs...)
}

// validSolids refuses solids contents of the months that no cake has.
func validSolids(months [12]float64, of string) error {
	var errs []error
	for i, s := range months {
		if !(s > 0.05 && s < mostSolids) {
			errs = append(errs, fmt.Errorf("cake solids of month %d%s are %.3g %%, outside the 5 to 60 %% that a cake can have", i+1, of, 100*s))
		}
	}
	return errors.Join(errs...)
}

// Expected returns the mean production on date d, kg dry per day, with the
// month's factor but without weekday and noise; years is the time since start.
func (f *Feed) Expected(d calendar.Date, years float64) float64 {
	return f.Base * f.Growth.Factor(years) * f.monthFactor(d, years)
}

func (f *Feed) monthFactor(d calendar.Date, years float64) float64 {
	if len(f.Sources) == 0 {
		return f.Month[d.Month-1] / mean(f.Month[:])
	}
	sum := 0.0
	for i := range f.Sources {
		sum += f.Sources[i].at(years) * f.Sources[i].season(int(d.Month)-1)
	}
	return sum / whole(f.Sources, years)
}

func (f *Feed) weekdayFactor(d calendar.Date) float64 {
	return f.Weekday[d.Weekday()] / mean(f.Weekday[:])
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
