package capability

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
	"loamcast/sim/replicate"
)

// Stage is a part of the horizon in which a plant stays as it is.
type Stage struct {
	After float64 // so many quarters of the horizon
	*Capability
}

// Stages are those of the horizon where, beside the file's own changes, some others
// come into force, each its lead time after its date. None may wait for a sign.
func (st *States) Stages(ctx context.Context, more []plant.Change) ([]Stage, error) {
	return st.stages(ctx, more, st.With)
}

// StagesAbout are the same as far as a glance at each shows, see [States.About].
func (st *States) StagesAbout(ctx context.Context, more []plant.Change) ([]Stage, error) {
	return st.stages(ctx, more, st.About)
}

func (st *States) stages(ctx context.Context, more []plant.Change, with func(context.Context, []plant.Change) (*Capability, error)) ([]Stage, error) {
	m := &st.study.File.Model
	dated := slices.Concat(st.own, more)
	effect := func(c plant.Change) calendar.Date { return c.Lead.After(c.Date) }
	slices.SortStableFunc(dated, func(a, b plant.Change) int { return effect(b).DaysUntil(effect(a)) })
	var out []Stage
	until := func(c plant.Change) float64 { return QuartersUntil(m.Start, m.Years, effect(c)) }
	for n, after := 0, 0.0; after < float64(m.Years*Quarters); {
		for n < len(dated) && until(dated[n]) <= after {
			n++
		}
		found, err := with(ctx, dated[:n])
		if err != nil {
			return nil, err
		}
		out = append(out, Stage{after, found})
		if n == len(dated) {
			break
		}
		after = until(dated[n])
	}
	return out, nil
}

// Odds are those of each growth scenario through the stages.
func (st *States) Odds(ctx context.Context, more []plant.Change) ([]Odds, error) {
	stages, err := st.Stages(ctx, more)
	if err != nil {
		return nil, err
	}
	return st.OddsThrough(stages), nil
}

// OddsThrough are those of each growth scenario through some stages.
func (st *States) OddsThrough(stages []Stage) []Odds {
	out := slices.Clone(st.oddsOf(stages[0].Capability))
	for _, s := range stages[1:] {
		next := st.oddsOf(s.Capability)
		for g := range out {
			out[g] = out[g].Then(next[g], s.After)
		}
	}
	return out
}

// oddsOf are those of each growth scenario under one state throughout, which nobody may
// change. A search waits for them, so that all workers reckon.
func (st *States) oddsOf(c *Capability) []Odds {
	if out := st.odds[c]; out != nil {
		return out
	}
	out, err := replicate.Run(context.Background(), len(st.demand), st.study.Workers, func(_ context.Context, g int) (Odds, error) {
		return c.Odds(st.demand[g]), nil
	}, nil)
	if err != nil {
		panic(err) // it was one
	}
	st.odds[c] = out
	return out
}

// Mix returns odds over the growth scenarios by their weights.
func (st *States) Mix(byGrowth []Odds) Odds {
	var weights []float64
	for _, g := range st.study.File.Planning.Growths {
		weights = append(weights, g.Weight)
	}
	return Mixed(byGrowth, weights)
}
