package vesselplan

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// calendarYears answers by simulating years of the calendar: those about the first
// missed with the vessels installed, from which the shares of runs follow, and with
// more vessels as many as a verdict takes.
type calendarYears struct {
	*planner
	loads []float64 // by row: the growth factor at which the target is missed first, 0 if unknown
}

// byCalendar fills in the answer.
func (p *planner) byCalendar(ctx context.Context, a *Answer) error {
	k := calendarYears{planner: p}
	var of []capability.Odds
	var weights []float64
	var years []*capability.Sums
	for g := range p.study.File.Planning.Growths {
		growth, o, short, err := k.staircase(ctx, a, g)
		if err != nil {
			return err
		}
		a.Growths = append(a.Growths, growth)
		of, weights, years = append(of, o), append(weights, growth.Weight), append(years, short...)
	}
	all := capability.Mixed(of, weights)
	r := Row{Vessels: a.Installed, StaticAverage: p.years, StaticPeak: p.years}
	r.judge(all, p.target.MissShare, a.Wrong)
	p.date(&r)
	main := a.Main()
	r.StaticAverage, r.StaticPeak = main.Rows[0].StaticAverage, main.Rows[0].StaticPeak
	if r.RunsShort(p.years) {
		r.Limit = capability.Shortage(years, p.target)
	}
	a.All.Rows = []Row{r}
	p.outlook.all, p.outlook.byGrowth = all, of
	return nil
}

// staircase finds that of one growth scenario. It ends with the first number of
// vessels that keeps the target in every year. Beside it come the odds of the
// vessels installed, and their years in which the target is about to be missed.
func (k *calendarYears) staircase(ctx context.Context, a *Answer, g int) (out Growth, o capability.Odds, short []*capability.Sums, err error) {
	if out, err = k.growth(g); err != nil {
		return out, nil, nil, err
	}
	scenario := k.study.File.Planning.Growths[g]
	base, err := k.study.Plant(&study.Case{Growth: g})
	if err != nil {
		return out, nil, nil, err
	}
	most, kept := k.most(), -1
	var last *cell
	for extra := 0; extra <= most; extra++ {
		if last, err = k.cell(study.Case{Growth: g, Vessels: extra}); err != nil {
			return out, nil, nil, err
		}
		r := Row{Vessels: a.Installed + extra}
		guess := k.guess(scenario.Growth, extra)
		if extra == 0 {
			if o, err = last.closely(ctx, guess, k.runs); err == nil {
				r.judge(o, k.target.MissShare, a.Wrong)
				err = last.short(ctx, &r, r.Short/quarters)
				short = last.sums(r.Short / quarters)
				k.addLost(last, a, scenario.Weight)
			}
		} else {
			err = last.row(ctx, &r, kept, guess)
		}
		if err != nil {
			return out, nil, nil, err
		}
		k.date(&r)
		out.static(&r, base, k.study.File.NextClasses(extra))
		k.learn(scenario.Growth, extra, r)
		kept = r.LastKept
		out.Rows = append(out.Rows, r)
		k.tell(1, k.cells())
		if a.lasts(&r) {
			k.tell(most-extra, k.cells())
			break
		}
		if extra == 0 && most > 0 && r.FirstMissed == 0 {
			help, err := k.help(ctx, g, most)
			if err != nil {
				return out, nil, nil, err
			}
			if !help { // nor does any number between
				k.tell(most-1, k.cells())
				extra = most - 1
			}
		}
	}
	return out, o, short, k.next(ctx, &out, g, last)
}

// help reports whether so many more vessels may keep the first year.
func (k *calendarYears) help(ctx context.Context, g, most int) (bool, error) {
	c, err := k.cell(study.Case{Growth: g, Vessels: most})
	if err != nil {
		return false, err
	}
	verdict, err := c.judge(ctx, 0)
	return verdict != stats.Above, err
}

// addLost adds what leaves untreated under a growth scenario in the years that
// were simulated.
func (k *calendarYears) addLost(c *cell, a *Answer, weight float64) {
	if k.outlook.lost == nil {
		k.outlook.lost = make([]float64, k.years*quarters)
	}
	for year := range c.trials {
		trials := c.sums(year)
		for _, sums := range trials {
			for q, kg := range sums.Untreated {
				k.outlook.lost[year*quarters+q] += weight * kg / float64(len(trials))
			}
		}
	}
}

// row finds the years that a number of vessels lasts for.
func (c *cell) row(ctx context.Context, r *Row, kept, guess int) error {
	var err error
	if r.LastKept, r.FirstMissed, err = c.boundary(ctx, kept, c.years, guess); err != nil {
		return err
	}
	r.Short, r.ShortTo = c.years*quarters, c.years*quarters
	year := r.LastKept + 1
	if year >= c.years {
		return nil
	}
	if err := c.short(ctx, r, year); err != nil {
		return err
	}
	r.Short = year*quarters + c.quarter(year)
	r.ShortTo = min(r.FirstMissed*quarters+quarters-1, c.years*quarters)
	return nil
}

// short says what is short in a year.
func (c *cell) short(ctx context.Context, r *Row, year int) error {
	if year >= c.years {
		return nil
	}
	if err := c.extend(ctx, year, min(enough, c.most)); err != nil {
		return err
	}
	sums := c.sums(year)
	r.Limit = capability.Shortage(sums, c.target)
	r.Stay, r.CakePerLoad = c.loads(sums)
	return nil
}

// sums are those of the trials of a year.
func (c *cell) sums(year int) []*capability.Sums {
	var out []*capability.Sums
	for _, t := range c.trials[year] {
		if t.Sums != nil {
			out = append(out, t.Sums)
		}
	}
	return out
}

// quarter returns the quarter of a year, from 0, by whose end more of the runs
// than the target allows have begun to miss it: the vessels must be there before.
func (c *cell) quarter(year int) int {
	for q, share := range c.begunBy(year) {
		if share > c.target.MissShare {
			return q
		}
	}
	return quarters - 1
}

// begunBy returns the shares of the runs that have begun to miss a year by the end
// of each of its quarters.
func (c *cell) begunBy(year int) (by [quarters]float64) {
	trials := c.trials[year]
	for i := range trials {
		if trials[i].Missed {
			for q := trials[i].Begun; q < quarters; q++ {
				by[q] += 1 / float64(len(trials))
			}
		}
	}
	return by
}

const (
	// Years looked at before and after that in which a few runs first show a miss,
	// and how many more at a time where these are not enough.
	before, after, further = 4, 2, 2
)

// resamples of the runs tell how far shares may be off: as many as there are likely
// curves, so that years told by both can be mixed.
const resamples = capability.Resamples

// closely replicates the years about the first missed until it is told how far off
// that may be, and returns the odds of all. Years before those simulated are kept;
// years after them are missed as the last of them.
func (c *cell) closely(ctx context.Context, guess, runs int) (capability.Odds, error) {
	at, err := c.lookThrough(ctx, guess, runs)
	if err != nil {
		return nil, err
	}
	first, last := max(0, min(at, c.years-1)-before), min(c.years, at+after+1)
	for {
		if err := c.cover(ctx, first, last, runs); err != nil {
			return nil, err
		}
		o, err := c.oddsOf(first, last, runs)
		if err != nil {
			return nil, err
		}
		var r Row
		r.judge(o, c.target.MissShare, DefaultWrong)
		switch {
		case r.Short/quarters <= first && first > 0:
			first = max(0, first-further)
		case r.ShortTo/quarters >= last && last < c.years:
			last = min(c.years, last+further)
		default:
			return o, nil
		}
	}
}

// lookThrough goes through the stretches of years and returns about the first that
// some runs miss. In a stretch that a few runs keep, the last year, which brings
// most, is replicated as often as asked.
func (c *cell) lookThrough(ctx context.Context, guess, runs int) (int, error) {
	for from := 0; from < c.years; {
		to := from + 1
		for to < c.years && !c.relief[to] {
			to++
		}
		look := bracket{kept: from - 1, missed: to, scout: func(year int) (bool, error) { return c.scout(ctx, year) }}
		at, err := look.lookFirst(guess)
		if err != nil || at < to {
			return at, err
		}
		if err := c.cover(ctx, to-1, to, runs); err != nil {
			return 0, err
		}
		if c.begunBy(to - 1)[quarters-1] > 0 {
			return to - 1, nil
		}
		from = to
	}
	return c.years, nil
}

// oddsOf are those of the years from one to before another that were simulated, and
// of the others by them.
func (c *cell) oddsOf(first, before, runs int) (capability.Odds, error) {
	shares, err := stats.RisingShares(c.missed(first, before, runs), c.relief[first:before], resamples)
	if err != nil {
		return nil, err
	}
	out := make(capability.Odds, c.years)
	for year := range out {
		near := min(max(year, first), before-1)
		by := c.begunBy(near)
		for q := range quarters {
			out[year][q] = make(capability.Sample, len(shares))
			for i := range shares {
				share := shares[i][near-first]
				if year < first {
					share = 0
				}
				if by[quarters-1] > 0 {
					share *= by[q] / by[quarters-1]
				} else if q < quarters-1 {
					share = 0
				}
				out[year][q][i] = share
			}
		}
	}
	return out, nil
}

// missed tells run by run which of the years from one to before another miss the
// target. The uncertain inputs of a run are the same in all years.
func (c *cell) missed(from, before, n int) [][]bool {
	out := make([][]bool, n)
	for i := range out {
		for year := from; year < before; year++ {
			out[i] = append(out[i], c.trials[year][i].Missed)
		}
	}
	return out
}

// next sets what the other stages can carry beside what comes in, in the last
// year that the most vessels keep.
func (k *calendarYears) next(ctx context.Context, out *Growth, g int, last *cell) error {
	at := max(0, out.Rows[len(out.Rows)-1].LastKept)
	if err := last.extend(ctx, at, scouts); err != nil {
		return err
	}
	var months []plant.Month // one of each year
	for _, sums := range last.sums(at) {
		months = append(months, sums.Sum())
	}
	days := 0.0
	for i := range months {
		out.Fed += months[i].Feed.Dry
		days += months[i].Days
	}
	out.Fed /= days
	base, err := k.study.Plant(&study.Case{Growth: g, Vessels: last.Vessels})
	if err != nil {
		return err
	}
	out.Next = base.Capacities(base.Start.AddYears(at).AddMonths(calendar.MonthsPerYear/2), plant.NeedsOf(months))
	return nil
}

// learn notes the growth at which a number of vessels runs short.
func (k *calendarYears) learn(g plant.Growth, extra int, r Row) {
	for len(k.loads) <= extra {
		k.loads = append(k.loads, 0)
	}
	if r.Missed(k.years) && k.loads[extra] == 0 {
		k.loads[extra] = g.Factor(float64(r.FirstMissed) + 0.5)
	}
}

// guess returns the year in which a number of vessels is expected to run short:
// as in another growth scenario, or in proportion to one vessel fewer; −1
// without either.
func (k *calendarYears) guess(g plant.Growth, extra int) int {
	load := 0.0
	switch {
	case extra < len(k.loads) && k.loads[extra] > 0:
		load = k.loads[extra]
	case extra > 0 && extra-1 < len(k.loads) && k.loads[extra-1] > 0:
		n := float64(k.study.File.Model.Vessels.Installed + extra)
		load = k.loads[extra-1] * n / (n - 1)
	default:
		return -1
	}
	for y := range k.years {
		if g.Factor(float64(y)+0.5) >= load {
			return y
		}
	}
	return k.years
}
