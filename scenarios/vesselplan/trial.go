package vesselplan

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
)

const monthsPerYear = 12

// trial is one replication of one year.
type trial struct {
	missed bool // the service target
	months []plant.Month
}

// cell is a number of vessels in a growth scenario.
type cell struct {
	study.Case
	*search
	trials map[int][]trial // by year
	tested map[int]Year
	whole  bool // years cannot be simulated alone
	relief []bool
}

// extend replicates a year until there are n trials of it.
func (c *cell) extend(ctx context.Context, year, n int) error {
	have := len(c.trials[year])
	if have >= n {
		return nil
	}
	window := c.Case
	window.First, window.Years = year, 1
	if c.whole {
		window.First, window.Years = 0, c.years
	}
	found, err := study.Each(ctx, c.study, study.Runs(&window, have, n-have), func(r *study.Result) ([]trial, error) {
		var out []trial
		for months := range slices.Chunk(r.Record.Months, monthsPerYear) {
			out = append(out, trial{missed: c.target.Missed(months), months: months})
		}
		return out, nil
	}, nil)
	if err != nil {
		return err
	}
	for _, run := range found {
		for i, t := range run {
			c.trials[window.First+i] = append(c.trials[window.First+i], t)
		}
	}
	c.simulated += (n - have) * (window.Years + c.warmUp(window.First))
	return nil
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
func (c *cell) judge(ctx context.Context, year int) (Year, error) {
	if y, done := c.tested[year]; done {
		return y, nil
	}
	missed := func(n int) []bool {
		out := make([]bool, n)
		for i := range out {
			out[i] = c.trials[year][i].missed
		}
		return out
	}
	for n := min(batch, c.most); ; n = min(n+batch, c.most) {
		if err := c.extend(ctx, year, n); err != nil {
			return Year{}, err
		}
		verdict, _ := c.test.Decide(missed(n))
		if verdict == undecided && n < c.most {
			continue
		}
		y := Year{Year: year, Verdict: verdict}
		c.tested[year] = y
		return y, nil
	}
}

// scout reports whether any of a few replications misses a year: a guess, not a
// verdict.
func (c *cell) scout(ctx context.Context, year int) (bool, error) {
	n := min(scouts, c.most)
	if err := c.extend(ctx, year, n); err != nil {
		return false, err
	}
	return slices.ContainsFunc(c.trials[year][:n], func(t trial) bool { return t.missed }), nil
}
