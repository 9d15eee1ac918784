package vesselplan

import (
	"context"
	"reflect"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/stats"
)

// horizon is one replication of some years of the calendar.
type horizon struct {
	years []capability.Seen
	// months are those of the years, by which it can be told whether replications differ
	// in anything; nil where it was known already that they do.
	months []plant.Month
}

// cell is a number of vessels in a growth scenario.
type cell struct {
	study.Case
	*search
	trials map[int][]capability.Seen // by year
	tested map[int]stats.Verdict
	whole  bool   // years cannot be simulated alone
	relief []bool // see reliefs
}

// extend replicates a year until there are n trials of it.
func (c *cell) extend(ctx context.Context, year, n int) error {
	have := len(c.trials[year])
	switch {
	case have >= n:
		return nil
	case c.whole:
		return c.simulate(ctx, 0, c.years, have, n)
	}
	return c.simulate(ctx, year, year+1, have, n)
}

// cover replicates the years from one to before another n times, those side by side
// of which there are fewer trials in runs of all of them.
func (c *cell) cover(ctx context.Context, from, before, n int) error {
	if c.whole {
		return c.extend(ctx, from, n)
	}
	for year := from; year < before; year++ {
		to := year
		for ; to < before && len(c.trials[to]) < n; to++ {
			delete(c.trials, to) // a few, made one by one
		}
		if to == year {
			continue
		}
		if err := c.simulate(ctx, year, to, 0, n); err != nil {
			return err
		}
		year = to
	}
	return nil
}

// simulate adds replications, from one to before another, of some years at once.
// Where nothing is left to chance, two stand for all.
func (c *cell) simulate(ctx context.Context, first, before, from, to int) error {
	window := c.Case
	window.First, window.Years = first, before-first
	runs := study.Runs(&window, from, to-from)
	done := len(runs)
	if !c.chance {
		done = min(done, 2)
	}
	found, err := c.run(ctx, runs[:done])
	if err != nil {
		return err
	}
	c.chance = c.chance || len(found) > 1 && differ(found[0], found[1])
	if done < len(runs) && c.chance {
		rest, err := c.run(ctx, runs[done:])
		if err != nil {
			return err
		}
		found = append(found, rest...)
	}
	for i := range runs {
		for k, seen := range found[min(i, len(found)-1)].years {
			c.trials[first+k] = append(c.trials[first+k], seen)
		}
	}
	return nil
}

// differ reports whether two replications differ in anything.
func differ(a, b horizon) bool {
	return a.months == nil || b.months == nil || !reflect.DeepEqual(a.months, b.months)
}

// run returns the years of some runs of the case.
func (c *cell) run(ctx context.Context, runs []study.Run) ([]horizon, error) {
	c.simulated += len(runs) * (runs[0].Years + c.warmUp(runs[0].First))
	if c.whole {
		return c.runWhole(ctx, runs)
	}
	return c.play(ctx, runs)
}

// play simulates some runs of the case.
func (c *cell) play(ctx context.Context, runs []study.Run) ([]horizon, error) {
	return study.Each(ctx, c.study, runs, func(r *study.Result) (horizon, error) {
		h := horizon{years: capability.SeenIn(r.Record.Months, c.target, r.Replication)}
		if !c.chance {
			h.months = r.Record.Months
		}
		return h, nil
	}, nil)
}

// warmUp returns the years simulated before a window.
func (s *search) warmUp(first int) int {
	if first == 0 {
		return s.study.File.Model.WarmUp
	}
	return 1
}

// judge replicates a year until the sequential test tells on which side of the
// target it lies, or there are as many replications as allowed.
func (c *cell) judge(ctx context.Context, year int) (stats.Verdict, error) {
	if verdict, done := c.tested[year]; done {
		return verdict, nil
	}
	missed := func(n int) []bool {
		out := make([]bool, n)
		for i := range out {
			out[i] = c.trials[year][i].Missed
		}
		return out
	}
	for n := min(batch, c.most); ; n = min(n+batch, c.most) {
		if err := c.extend(ctx, year, n); err != nil {
			return undecided, err
		}
		verdict, _ := c.test.Decide(missed(n))
		if verdict == undecided && n < c.most {
			continue
		}
		c.tested[year] = verdict
		return verdict, nil
	}
}

// scout reports whether any of a few replications misses a year: a guess, not a
// verdict.
func (c *cell) scout(ctx context.Context, year int) (bool, error) {
	n := min(scouts, c.most)
	if err := c.extend(ctx, year, n); err != nil {
		return false, err
	}
	return slices.ContainsFunc(c.trials[year][:n], func(s capability.Seen) bool { return s.Missed }), nil
}
