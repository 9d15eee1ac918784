package vesselplan

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// row finds what a number of vessels lasts for.
func (c *cell) row(ctx context.Context, kept, guess int) (Row, error) {
	r := Row{Vessels: c.study.File.Model.Vessels.Installed + c.Vessels}
	var err error
	if r.LastKept, r.FirstMissed, err = c.boundary(ctx, kept, c.years, guess); err != nil {
		return r, err
	}
	if short := r.LastKept + 1; short < c.years {
		if err := c.extend(ctx, short, min(enough, c.most)); err != nil {
			return r, err
		}
		start := c.study.File.Model.Start.AddYears(short)
		r.NeededBy = start.AddMonths(c.quarter(short) * monthsPerQuarter)
		r.OrderBy = c.study.File.Planning.VesselLead.Before(r.NeededBy)
		r.Limit = c.limit(short)
		r.Stay, r.CakePerLoad = c.loads(short)
	}
	r.Tested, err = c.testedYears()
	return r, err
}

const (
	quarters         = 4 // in a year of the horizon
	monthsPerQuarter = calendar.MonthsPerYear / quarters
	// begins is the part of what a year allows, of solids that leave untreated or
	// of waiting, from which on they count as the beginning of a missed year.
	begins = 0.1
)

// quarter returns the quarter of a year, from 0, by whose end more of the runs
// than the target allows have begun to miss it: the vessels must be there before.
func (c *cell) quarter(year int) int {
	trials := c.trials[year]
	var by [quarters]int
	for _, t := range trials {
		if t.missed {
			for q := c.begun(t.months); q < quarters; q++ {
				by[q]++
			}
		}
	}
	for q, n := range by {
		if float64(n) > c.target.MissShare*float64(len(trials)) {
			return q
		}
	}
	return quarters - 1
}

// begun returns the quarter in which solids begin to leave untreated, or to wait,
// in a year that misses the target by it.
func (c *cell) begun(months []plant.Month) int {
	leave := plant.UntreatedShare(months) > c.target.DivertedLimit
	wait := plant.CakeDelay(months) > c.target.DelayLimit
	fed, untreated, delayed := 0.0, 0.0, 0.0
	for i := range months {
		fed += months[i].Feed.Dry
	}
	for i := range months {
		untreated += months[i].Untreated()
		delayed += months[i].Holding.Delayed
		if leave && untreated > begins*c.target.DivertedLimit*fed || wait && delayed > begins*c.target.DelayLimit*fed {
			return i / monthsPerQuarter
		}
	}
	return quarters - 1
}

// limit returns what is short in a year: what solids wait for so much longer in
// the months in which some of them leave untreated or wait too long.
func (c *cell) limit(year int) plant.Cause {
	var short, enough wait
	for _, t := range c.trials[year] {
		for i := range t.months {
			if m := &t.months[i]; m.Untreated() > 0 || plant.CakeDelay(t.months[i:i+1]) > c.target.DelayLimit {
				short.add(m)
			} else {
				enough.add(m)
			}
		}
	}
	most, by := plant.Cause(0), 0.0
	for i := range short.days {
		cause := plant.Cause(i)
		longer := short.mean(cause) - enough.mean(cause)
		if cause.Shortage() && longer > by {
			most, by = cause, longer
		}
	}
	return most
}

// wait adds up how long solids waited, by cause, kg dry × days, and the solids
// that came in, kg dry.
type wait struct {
	days plant.Waits
	fed  float64
}

func (w *wait) add(m *plant.Month) {
	for cause, days := range m.Waits {
		w.days[cause] += days
	}
	w.fed += m.Feed.Dry
}

// mean returns the days for which a kg waited.
func (w *wait) mean(c plant.Cause) float64 {
	if w.fed == 0 {
		return 0
	}
	return w.days[c] / w.fed
}

// loads returns how long a load took a vessel in a year, turnaround included,
// days, and the dry cake in it, kg.
func (c *cell) loads(year int) (stay, cakeDry float64) {
	var sum plant.Month
	for _, t := range c.trials[year] {
		for i := range t.months {
			sum.Release.Residence += t.months[i].Release.Residence
			sum.Release.Loads += t.months[i].Release.Loads
			sum.Mixing.CakeDry += t.months[i].Mixing.CakeDry
			sum.Loads.Filled += t.months[i].Loads.Filled
		}
	}
	if sum.Release.Loads > 0 {
		stay = sum.Release.Residence/sum.Release.Loads + c.study.File.Model.Vessels.Turnaround.Days()
	}
	if sum.Loads.Filled > 0 {
		cakeDry = sum.Mixing.CakeDry / sum.Loads.Filled
	}
	return stay, cakeDry
}

// static sets the handbook's estimate beside a row: the years in which it passes
// the vessels of the row, those that the file adds included.
func (g *Growth) static(r *Row, p *plant.Plant, added int) {
	r.StaticAverage, r.StaticPeak = p.Years, p.Years
	r.StaticStay = (p.Vessels.Residence + p.Vessels.Turnaround).Days()
	r.StaticCakePerLoad = p.StaticNeed(0).LoadCakeDry
	for y := p.Years - 1; y >= 0; y-- {
		have := float64(p.Vessels.Installed + added + vesselsBy(p.Changes, p.Start.AddYears(y+1)))
		if g.StaticMean[y] > have {
			r.StaticAverage = y
		}
		if g.StaticPeak[y] > have {
			r.StaticPeak = y
		}
	}
}

// vesselsBy returns how many vessels changes with a date have added before a
// day.
func vesselsBy(changes []plant.Change, day calendar.Date) int {
	n := 0
	for _, c := range changes {
		if c.Trigger.Held == 0 && c.Lead.After(c.Date).Before(day) {
			n += c.Vessels
		}
	}
	return n
}
