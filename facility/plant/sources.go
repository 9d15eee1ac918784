package plant

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"loamcast/facility/material"
	"loamcast/sim/calendar"
)

// Source is a plant that sends a part of the cake, with a solids content, a season
// and a week of its own. What it sends on a day is its part of the whole production
// of then:
//
//	dry solids per day = Feed.Base × Feed.Growth × part × month × weekday × noise
//
// The part is Base × Growth of the source over the sum of all, so that a growth or a
// base of the whole that takes the place of the file's leaves the parts as they are.
type Source struct {
	Name       string
	Base       float64     // kg dry per day, mean of the first year
	Growth     Growth      // of its part
	Month      [12]float64 // relative; scaled to a mean of 1
	Weekday    [7]float64  // relative, Sunday first; scaled to a mean of 1
	CakeSolids [12]float64 // solids content of its cake by month, 0…1
}

// mostSolids is the driest cake that the day-to-day noise may give.
const mostSolids = 0.6

func (s *Source) validate() error {
	var errs []error
	if !(s.Base > 0) || s.Growth == nil {
		errs = append(errs, fmt.Errorf("the source %s needs a production that is positive, and a growth", s.Name))
	}
	for _, v := range append(s.Month[:], s.Weekday[:]...) {
		if !(v >= 0) {
			errs = append(errs, fmt.Errorf("production factor %g of the source %s is negative", v, s.Name))
		}
	}
	if mean(s.Month[:]) == 0 || mean(s.Weekday[:]) == 0 {
		errs = append(errs, fmt.Errorf("production factors of the source %s are all zero", s.Name))
	}
	return errors.Join(append(errs, validSolids(s.CakeSolids, " of the source "+s.Name))...)
}

// at returns the source's production in the mean of a year's months, kg dry per day,
// some years after the start.
func (s *Source) at(years float64) float64 { return s.Base * s.Growth.Factor(years) }

// season returns the factor of a month.
func (s *Source) season(month int) float64 { return s.Month[month] / mean(s.Month[:]) }

// Wet returns the wet cake that it sends in the mean of the first year's months, kg per day.
func (s *Source) Wet() float64 {
	wet := 0.0
	for month, solids := range s.CakeSolids {
		wet += s.Base * s.season(month) / solids / float64(len(s.CakeSolids))
	}
	return wet
}

// whole returns what all sources send in the mean of a year's months, kg dry per day,
// some years after the start.
func whole(sources []Source, years float64) float64 {
	sum := 0.0
	for i := range sources {
		sum += sources[i].at(years)
	}
	return sum
}

// Together is the growth of the sum of sources: 1 in the mean of the first year, as
// theirs are.
type Together []Source

// Factor returns what the sources send over what they send in the first year.
func (g Together) Factor(t float64) float64 {
	base := 0.0
	for i := range g {
		base += g[i].Base
	}
	return whole(g, t) / base
}

// Combine sets what the sources are together: base, growth, season, week, and by
// month the solids content of their mixed cake, dry solids over wet cake. Season, week
// and solids are those of the parts of the first year.
func (f *Feed) Combine() {
	f.Base, f.Growth = 0, Together(f.Sources)
	for i := range f.Sources {
		f.Base += f.Sources[i].Base
	}
	f.Month, f.Weekday = [12]float64{}, [7]float64{}
	for i := range f.Sources {
		s := &f.Sources[i]
		part := s.Base / f.Base
		for month := range f.Month {
			f.Month[month] += part * s.season(month)
		}
		for day := range f.Weekday {
			f.Weekday[day] += part * s.Weekday[day] / mean(s.Weekday[:])
		}
	}
	f.CakeSolids = mixedSolids(f.Sources)
}

// mixedSolids returns the solids content of the cake of all sources by month. In a
// month in which none sends any it is that of what they send in a year.
func mixedSolids(sources []Source) (out [12]float64) {
	var dry, wet [12]float64
	dryYear, wetYear := 0.0, 0.0
	for i := range sources {
		s := &sources[i]
		for month := range dry {
			sent := s.Base * s.season(month)
			dry[month] += sent
			wet[month] += sent / s.CakeSolids[month]
			dryYear += sent
			wetYear += sent / s.CakeSolids[month]
		}
	}
	for month := range out {
		out[month] = dryYear / wetYear
		if dry[month] > 0 {
			out[month] = dry[month] / wet[month]
		}
	}
	return out
}

// Thicken adds to the solids content of cake, that of every source, in parts of 1.
func (f *Feed) Thicken(points float64) {
	if len(f.Sources) == 0 {
		for i := range f.CakeSolids {
			f.CakeSolids[i] += points
		}
		return
	}
	f.Sources = slices.Clone(f.Sources)
	for i := range f.Sources {
		for month := range f.Sources[i].CakeSolids {
			f.Sources[i].CakeSolids[month] += points
		}
	}
	f.CakeSolids = mixedSolids(f.Sources)
}

// regrow gives every source another growth, made of its own.
func (f *Feed) regrow(grow func(Growth) Growth) {
	f.Sources = slices.Clone(f.Sources)
	for i := range f.Sources {
		f.Sources[i].Growth = grow(f.Sources[i].Growth)
	}
}

// Level lets production stay as it is in the mean of the first year.
func (f *Feed) Level() {
	f.Growth = Compound{}
	f.regrow(func(Growth) Growth { return Compound{} })
}

// PartsShift reports whether the parts of the sources change over some years, so that
// cake and seasons of one year differ from those of another.
func (f *Feed) PartsShift(years int) bool {
	const close = 1e-9
	for month := range years * calendar.MonthsPerYear {
		t := float64(month) / calendar.MonthsPerYear
		for i := range f.Sources {
			factor, first := f.Sources[i].Growth.Factor(t), f.Sources[0].Growth.Factor(t)
			if math.Abs(factor-first) > close*first {
				return true
			}
		}
	}
	return false
}

// sent returns what all sources send on a day, per day, some years after the start:
// noise is the day's factor on production, thickness that on the solids content, which
// also the day's spell moves.
func (f *Feed) sent(cake *material.Spec, d calendar.Date, years, noise, thickness float64, spell *Spell) material.Parcel {
	spec := *cake
	var out material.Parcel
	send := func(dry, solids float64) {
		spec.Moisture = 1 - min(mostSolids, spell.solids(solids)*thickness)
		one := spec.OfDry(dry)
		out.Mix(&one)
	}
	month := int(d.Month) - 1
	perPart := f.Base * f.Growth.Factor(years) * noise / whole(f.Sources, years)
	for i := range f.Sources {
		s := &f.Sources[i]
		send(perPart*s.at(years)*s.season(month)*s.Weekday[d.Weekday()]/mean(s.Weekday[:]), s.CakeSolids[month])
	}
	send(f.pulse(d), f.CakeSolids[month])
	return out
}
