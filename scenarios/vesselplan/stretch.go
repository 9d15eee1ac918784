package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// stretches are years cut where one may be kept although that before it is
// missed. Within a stretch a bracket will do.
type stretches struct {
	relief []bool // by year: a stretch begins with it
	judge  func(year int) (stats.Verdict, error)
	scout  func(year int) (missed bool, err error)
}

// boundary goes through the stretches until a year is missed. It returns the last
// year that is kept with all before it, and the first missed. What is known is as
// in [cell.boundary].
func (s stretches) boundary(kept, missed, guess int) (lastKept, firstMissed int, err error) {
	lastKept = kept
	for from := kept + 1; from < missed; {
		to := from + 1
		for to < missed && !s.relief[to] {
			to++
		}
		b := bracket{kept: from - 1, missed: to, judge: s.judge, scout: s.scout}
		near := guess
		if guess >= 0 {
			near = min(max(guess, from), to)
		}
		if err := b.close(near); err != nil {
			return 0, 0, err
		}
		if lastKept == from-1 { // none before was too near to the target to tell
			lastKept = b.kept
		}
		if b.missed < to {
			return lastKept, b.missed, nil
		}
		from = to
	}
	return lastKept, missed, nil
}

// reliefs returns the years that may be kept although those before them are
// missed: production is less than it was, a pulse of it is over, or a change of
// the file has been in force for the first time, or for the first whole year. Where
// changes wait for a sign, any year may be.
func reliefs(p *plant.Plant, triggered bool) []bool {
	out := make([]bool, p.Years)
	mark := func(year int) {
		if year > 0 && year < len(out) {
			out[year] = true
		}
	}
	for y := range out {
		if triggered || falls(p.Feed.Growth, y) {
			mark(y)
		}
	}
	for _, c := range p.Changes {
		if c.Trigger.Waits() {
			continue
		}
		year, first := yearOf(p.Start, c.Lead.After(c.Date), p.Years)
		mark(year)
		if !first {
			mark(year + 1)
		}
	}
	for _, pulse := range p.Feed.Pulses {
		year, _ := yearOf(p.Start, pulse.From.AddDays(pulse.Days), p.Years)
		mark(year)
		mark(year + 1)
	}
	return out
}

// falls reports whether production falls at some time in a year or the one before.
func falls(g plant.Growth, year int) bool {
	for month := range 2 * calendar.MonthsPerYear {
		at := float64(year-1) + float64(month)/calendar.MonthsPerYear
		if at >= 0 && g.Factor(at+1.0/calendar.MonthsPerYear) < g.Factor(at)*(1-1e-9) {
			return true
		}
	}
	return false
}

// yearOf returns the year of the horizon in which a day falls, years for any day
// after it and −1 for any before, and whether it is the first day of the year.
func yearOf(start, day calendar.Date, years int) (year int, first bool) {
	year = -1
	for year < years && !day.Before(start.AddYears(year+1)) {
		year++
	}
	return year, day == start.AddYears(year)
}
