package drivers

import (
	"context"
	"fmt"
	"math"
	"slices"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
)

// leastShare stands for a target that allows no miss at all: a curve has no production
// at which none is missed.
const leastShare = 1e-3

// yearly finds the year from which on more than the target allows of the years miss it,
// by what the plant carries: once closely with every uncertain input at its median, and
// at a point of a design so many times as much.
type yearly struct {
	*planner
	main     *capability.Capability // with every input at its median
	medians  []float64
	produces []bool    // by input: it moves production, and nothing of the plant
	limits   []float64 // the production that is carried at the target in each year, kg dry/day
}

// newYearly tries the plant with every input at its median. It fails with a reason, in
// words that follow "because", where nothing can be told from what is carried, or whole
// runs contradict it.
func (p *planner) newYearly(ctx context.Context) (y *yearly, why string, err error) {
	f := p.study.File
	if why = capability.Steady(f).Why; why != "" {
		return nil, why, nil
	}
	y = &yearly{planner: p, medians: p.inputs.medians()}
	states, err := capability.StatesAt(ctx, p.study, y.medians, capability.Replications)
	if err != nil {
		return nil, "", err
	}
	y.main = states.Main()
	if y.main.Curve == nil {
		return nil, "with every input at its median the years within reach all miss it, or none does", nil
	}
	stages, err := states.Stages(ctx, nil)
	if err != nil {
		return nil, "", err
	}
	p.years += states.Simulated()
	y.limits = limits(stages, f.Model.Years, max(f.Planning.Target.MissShare, leastShare))
	for i := range f.Planning.Inputs {
		y.produces = append(y.produces, capability.MovesProduction(f, i))
	}
	if agreed, err := y.confirm(ctx); err != nil || !agreed {
		return nil, capability.Contradicted, err
	}
	return y, "", nil
}

// confirm runs the plant at the medians from the start through the years that it keeps by
// what it carries, as `when` does with inputs drawn, and reports whether as few runs miss
// them as the target allows.
func (y *yearly) confirm(ctx context.Context) (agreed bool, err error) {
	f := y.study.File
	years := int(y.median().value)
	if years == 0 {
		return true, nil
	}
	growths := slices.Repeat([]int{vesselplan.MainGrowth(&f.Planning)}, capability.Checks)
	whole, err := capability.WholeRuns(ctx, y.study, study.Case{Quantiles: y.medians}, growths, years)
	y.years += capability.Checks * (years + f.Model.WarmUp)
	return !capability.Contradict(whole.Missed, capability.Checks, f.Planning.Target.MissShare), err
}

// limits are what is carried in each year at a share of years that miss. Where the plant
// changes within a year, the least of it counts.
func limits(stages []capability.Stage, years int, share float64) []float64 {
	out := make([]float64, years)
	for year := range out {
		out[year] = math.Inf(1)
		for i, s := range stages {
			last := i+1 == len(stages) || stages[i+1].After > float64(year*capability.Quarters)
			if s.After < float64((year+1)*capability.Quarters) && last {
				out[year] = min(out[year], carries(s.Capability, share))
			}
		}
	}
	return out
}

func carries(c *capability.Capability, share float64) float64 {
	switch {
	case c.Curve != nil:
		return c.Curve.Load(share)
	case c.Never:
		return 0
	}
	return math.Inf(1)
}

// median is the year with every input at its median, under the growth that is believed
// in most.
func (y *yearly) median() reading {
	return y.at(vesselplan.MainGrowth(&y.study.File.Planning), y.medians, 1)
}

// at is the year under a growth scenario, with the inputs at quantiles, of a plant that
// carries so many times as much as that at the medians.
func (y *yearly) at(growth int, quantiles []float64, times float64) reading {
	var loads, margins []float64
	for year, d := range capability.DemandAt(y.study.File, growth, quantiles) {
		load, limit := d.Loads[0], y.limits[year]
		if limit > 0 && !math.IsInf(limit, 1) {
			limit *= times
		}
		loads, margins = append(loads, math.Log(load)), append(margins, margin(load, limit))
	}
	rise := 0.0
	if len(loads) > 1 {
		rise = loads[1] - loads[0]
	}
	return passed(margins, rise)
}

// margin is the logarithm of how many times what is carried comes in.
func margin(load, carried float64) float64 {
	if load == 0 {
		return math.Inf(-1)
	}
	return math.Log(load / carried)
}

// passed returns when what years have passes nothing, years since the start: a time
// after the beginning of year y, counted from 0, and no later than its end says that y is
// the first year above nothing. Between years it goes in a straight line, before the first
// as far as it would have risen by so much a year, so that it moves without jumps. If it is
// passed in no year, the time is the end of the horizon, and the true time lies beyond.
func passed(years []float64, rise float64) reading {
	for y, now := range years {
		if now <= 0 {
			continue
		}
		before := now - rise
		if y > 0 {
			before = years[y-1]
		}
		at := float64(y)
		if before <= 0 && !math.IsInf(before, -1) && !math.IsInf(now, 1) {
			at -= before / (now - before)
		}
		return reading{value: at, begun: indicator(y == 0 && before > 0)}
	}
	return reading{value: float64(len(years)), kept: 1}
}

// evaluate finds the year at each point of a design. Points that differ in production
// alone share what the plant carries.
func (y *yearly) evaluate(ctx context.Context, points [][]float64, streams, ramps int) ([]reading, error) {
	var variants []capability.Variant
	place := map[string]int{}
	of := make([]int, len(points)) // the variant of each point
	for i, point := range points {
		c, stream := y.inputs.at(point)
		v := capability.Variant{Case: study.Case{Quantiles: y.plantAt(c.Quantiles)}, From: int(stream*float64(streams)) * ramps}
		key := fmt.Sprint(v.Quantiles, v.From)
		if _, known := place[key]; !known {
			expected, err := y.expected(v.Quantiles)
			if err != nil {
				return nil, err
			}
			v.Expected = expected
			place[key] = len(variants)
			variants = append(variants, v)
		}
		of[i] = place[key]
	}
	before, runs := y.done, float64(len(points)*ramps)
	times, years, err := y.main.Times(ctx, y.study, study.Case{Quantiles: y.medians}, variants, ramps, func(done, total int) {
		y.progress(before+int(runs*float64(done)/float64(total)), y.total())
	})
	y.years += years
	y.done += len(points) * ramps
	if err != nil {
		return nil, err
	}
	out := make([]reading, len(points))
	for i, point := range points {
		c, _ := y.inputs.at(point)
		out[i] = y.at(c.Growth, c.Quantiles, times[of[i]])
	}
	return out, nil
}

// plantAt leaves of quantiles those that move the plant; what moves production alone
// stays at its median.
func (y *yearly) plantAt(quantiles []float64) []float64 {
	out := make([]float64, len(quantiles))
	for i, q := range quantiles {
		if out[i] = q; y.produces[i] {
			out[i] = y.medians[i]
		}
	}
	return out
}

// expected is how many times as much a plant with its inputs at quantiles carries as
// that at the medians, by the handbook's estimate.
func (y *yearly) expected(quantiles []float64) (float64, error) {
	carries := func(quantiles []float64) (float64, error) {
		m, _ := y.study.File.Planning.At(y.study.File.Model, quantiles)
		p, err := y.study.Base().With(m)
		if err != nil {
			return 0, err
		}
		return p.Feed.Base * float64(p.Vessels.Installed) / p.StaticNeed(0.5).Average, nil
	}
	now, err := carries(quantiles)
	if err != nil {
		return 0, err
	}
	median, err := carries(y.medians)
	return now / median, err
}
