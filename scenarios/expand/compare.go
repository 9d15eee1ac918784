package expand

import (
	"cmp"
	"context"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/capability"
	"loamcast/sim/compare"
	"loamcast/sim/replicate"
)

const (
	// firstRuns of every plan come before the first is dropped, and moreRuns are
	// added between two looks at the test of the target.
	firstRuns, moreRuns = 8, 8
	// confidence in the choice, and the share of the present worth below which a
	// difference does not matter.
	confidence, matters = 0.95, 0.005
	// tested plans, from the cheapest on, are replicated until the test has judged
	// each of their years.
	tested = 2
)

// choice is the outcome of a comparison.
type choice struct {
	plans        []*whole // by mean present worth
	chance       float64
	settled      bool
	indifference float64
}

// compare simulates plans whole that may be the cheapest: the first of them until it is
// judged whether it keeps the target, then all until the cheapest is known, and at last
// that one, and what costs so little more that it may come first yet, until they are
// judged. Where a plan misses a year it stops.
func (e *expansion) compare(ctx context.Context, through int, paths []path) (c *choice, missed *missedYear, err error) {
	c = &choice{chance: 1, settled: true}
	for _, p := range paths {
		c.plans = append(c.plans, e.wholeOf(p))
	}
	if len(c.plans) == 1 {
		if missed, err = e.check(ctx, c.plans[0], through); missed != nil || err != nil {
			return c, missed, err
		}
		// What it costs is asked for, also where no year was left to judge.
		return c, nil, e.extend(ctx, c.plans, min(firstRuns, e.most))
	}
	if missed, err = e.test(ctx, c.plans[0], through); missed != nil || err != nil {
		return c, missed, err
	}
	best, err := e.eliminate(ctx, c)
	if err != nil {
		return nil, nil, err
	}
	c.plans[0], c.plans[best] = c.plans[best], c.plans[0]
	if err := c.order(c.plans); err != nil {
		return nil, nil, err
	}
	for i, w := range slices.Clone(c.plans) {
		if i > 0 && w.over(c.plans[0]) > c.indifference {
			continue
		}
		if missed, err = e.test(ctx, w, through); missed != nil || err != nil {
			return c, missed, err
		}
	}
	return c, nil, c.order(c.plans)
}

// others are the plans to show: the first, which stays that for whoever asks for it
// alone, with those that it was compared with and those that come next. Should one of
// these cost less in whole runs after all, it is told, and so is the chance of the first.
func (e *expansion) others(ctx context.Context, c *choice, through int) (*choice, error) {
	for {
		last, paths, err := e.propose(ctx, e.toShow)
		if err != nil {
			return nil, err
		}
		all := &choice{plans: slices.Clone(c.plans), chance: 1, settled: c.settled, indifference: c.indifference}
		for _, p := range paths {
			if w := e.wholeOf(p); last == through && !slices.Contains(all.plans, w) {
				all.plans = append(all.plans, w)
			}
		}
		all.plans = all.plans[:min(e.shown, len(all.plans))]
		missed, by, err := e.beside(ctx, all, through)
		if missed == nil || err != nil {
			return all, err
		}
		e.learn(missed.config, missed.year-1)
		c.plans = slices.DeleteFunc(slices.Clone(c.plans), func(w *whole) bool { return w == by })
	}
}

// beside compares the first plan with others, and holds those against the target. It
// stops where one of them misses a year, and returns which.
func (e *expansion) beside(ctx context.Context, c *choice, through int) (missed *missedYear, by *whole, err error) {
	if len(c.plans) == 1 {
		return nil, nil, nil
	}
	if _, err := e.eliminate(ctx, c); err != nil {
		return nil, nil, err
	}
	if err := c.order(c.plans[1:]); err != nil {
		return nil, nil, err
	}
	for i, w := range slices.Clone(c.plans[1:]) {
		if missed, _ = e.judge(w, through); i+1 < tested {
			missed, err = e.test(ctx, w, through)
		}
		if missed != nil || err != nil {
			return missed, w, err
		}
	}
	return nil, nil, c.order(c.plans[1:])
}

// eliminate finds the place of the cheapest plan by Kim and Nelson's procedure.
func (e *expansion) eliminate(ctx context.Context, c *choice) (best int, err error) {
	first := min(firstRuns, e.most)
	if err := e.extend(ctx, c.plans, first); err != nil {
		return 0, err
	}
	var options []compare.Option
	mean := 0.0
	for _, w := range c.plans {
		mean += math.Abs(stat.Mean(w.present(first), nil)) / float64(len(c.plans))
		options = append(options, func(ctx context.Context, rep int) (float64, error) {
			out, err := w.outcome(ctx, e, rep)
			return out.cost.Present, err
		})
	}
	c.indifference = max(1, matters*mean)
	before, years := e.states.Simulated()+e.wholeYears(), e.years+e.model.WarmUp
	found, err := compare.KimNelson(ctx, options, compare.Setup{
		Goal: compare.Lowest, First: first, Workers: e.study.Workers,
		// Two that stay close may have all their replications, more of them fewer.
		Most: first*len(options) + min(2, len(options))*(e.most-first),
		Progress: func(done, planned int) {
			have := first * len(options)
			e.tell(before+(done-have)*years, before+(planned-have)*years)
		},
	}, compare.Zone{Confidence: confidence, Indifference: c.indifference})
	c.settled = c.settled && found.Reached
	return found.Best, err
}

// order puts plans in order of what they cost more than the first so far, which thereby,
// if it is among them, stays the first unless another is found to be cheaper.
func (c *choice) order(plans []*whole) error {
	first := c.plans[0]
	slices.SortStableFunc(plans, func(a, b *whole) int { return cmp.Compare(a.over(first), b.over(first)) })
	c.chance = 1
	for _, w := range c.plans[1:] {
		n := together(c.plans[0], w)
		best, chance, err := compare.Best([][]float64{c.plans[0].present(n), w.present(n)}, compare.Lowest)
		if err != nil {
			return err
		}
		if best != 0 {
			chance = 1 - chance
		}
		c.chance = max(0, c.chance-(1-chance))
	}
	return nil
}

// over returns what a plan costs more than another in the mean, USD.
func (w *whole) over(other *whole) float64 {
	n := together(w, other)
	return stat.Mean(w.present(n), nil) - stat.Mean(other.present(n), nil)
}

// together is how many replications two plans have in common.
func together(a, b *whole) int { return min(a.replications(), b.replications()) }

// test replicates a plan until each of its years is judged, or there are as many
// replications as allowed. It returns a year that is missed: by the judgement, or,
// where that cannot tell, by more of the runs than may.
func (e *expansion) test(ctx context.Context, w *whole, through int) (*missedYear, error) {
	for {
		n := w.replications()
		missed, decided := e.judge(w, through)
		switch {
		case decided:
			return missed, nil
		case n >= e.most:
			return w.above(e.file.Planning.Target.MissShare, through), nil
		}
		if err := e.extend(ctx, []*whole{w}, min(n+moreRuns, e.most)); err != nil {
			return nil, err
		}
	}
}

// check is the test of a plan that is compared with none, of which nothing is asked but
// whether it keeps its years. Where whole runs only contradict, those are left out that
// could not any more, whatever they brought.
func (e *expansion) check(ctx context.Context, w *whole, through int) (*missedYear, error) {
	checks := min(capability.Checks, e.most)
	for e.steady {
		n, agreed := w.replications(), 0
		for y := range through + 1 {
			agreed = max(agreed, capability.Agreed(w.hits(y), checks, e.target.MissShare))
		}
		switch {
		case n >= checks:
			return e.test(ctx, w, through)
		case n >= agreed:
			return nil, nil
		}
		if err := e.extend(ctx, []*whole{w}, min(n+moreRuns, agreed)); err != nil {
			return nil, err
		}
	}
	return e.test(ctx, w, through)
}

// extend simulates plans until they have n replications each.
func (e *expansion) extend(ctx context.Context, plans []*whole, n int) error {
	type job struct {
		*whole
		rep int
	}
	var jobs []job
	for _, w := range plans {
		for rep := w.replications(); rep < n; rep++ {
			jobs = append(jobs, job{w, rep})
		}
	}
	before, years := e.states.Simulated()+e.wholeYears(), e.years+e.model.WarmUp
	_, err := replicate.Run(ctx, len(jobs), e.study.Workers, func(ctx context.Context, i int) (struct{}, error) {
		_, err := jobs[i].outcome(ctx, e, jobs[i].rep)
		return struct{}{}, err
	}, func(done, total int) { e.tell(before+done*years, before+total*years) })
	return err
}
