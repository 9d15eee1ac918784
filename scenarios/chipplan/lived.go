package chipplan

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
)

const (
	// leadStreams is how many streams of lead times each replication's use is tried
	// with.
	leadStreams = 10
	// mostHistories is how many replications rules are compared on, at the most: every rule
	// goes through each of their days. Whether the best keeps its promise is then seen in
	// the plant itself, in all replications.
	mostHistories = answer.ExactRuns
)

// lived gathers what an inventory has to live with: what the mix takes each day if there
// are always chips.
type lived struct {
	*planner
	always  []study.Run // of every replication, with orders that come at once
	taken   []*history  // leadStreams of each replication in a row; nil of those that were short
	again   []study.Run // of these
	ordered []plant.Chips
}

func newLived(p *planner) *lived {
	return &lived{planner: p, always: p.years.Runs(p.study, study.Case{Alter: neverShort})}
}

// add takes the next replication of the plant as it is: what it took, or, where it was
// short, that it is to be simulated again.
func (l *lived) add(run *fiscal.Run) {
	replication := len(l.taken) / leadStreams
	switch {
	case replication >= mostHistories:
	case slices.ContainsFunc(run.Months, func(m fiscal.Goods) bool { return m.Chips.HoursShort > 0 }):
		l.again, l.ordered = append(l.again, l.always[replication]), append(l.ordered, run.Chips)
		l.taken = append(l.taken, make([]*history, leadStreams)...)
	default:
		h := newHistory(run.Months, run.Chips.Truckload)
		l.taken = append(l.taken, l.withLeads(h, replication, &run.Chips)...)
	}
}

// withLeads are the histories of one replication.
func (l *lived) withLeads(h *history, replication int, chips *plant.Chips) (out []*history) {
	key := random.Key{Seed: l.study.File.Seed, Replication: replication}
	for stream := range leadStreams {
		out = append(out, h.withLeads(chips, key, uint64(stream)))
	}
	return out
}

// histories simulates again what was short, with orders that come at once, and returns all.
func (l *lived) histories(ctx context.Context) ([]*history, error) {
	found, err := study.Each(ctx, l.study, l.again, func(r *study.Result) (*history, error) {
		return newHistory(l.years.Of(r.Record), r.Plant.Chips.Truckload), nil
	}, l.progress)
	for i, h := range found {
		replication := l.again[i].Replication
		copy(l.taken[replication*leadStreams:], l.withLeads(h, replication, &l.ordered[i]))
	}
	return l.taken, err
}

// neverShort has every order delivered at once. A large store would do as well,
// but for the moisture of its chips, which would not follow the seasons.
func neverShort(m *plant.Model) {
	c := &m.Chips
	c.Reorder = max(c.Reorder, c.Truckload)
	c.OrderUpTo = max(c.OrderUpTo, 2*c.Reorder+c.Truckload)
	c.Capacity = max(c.Capacity, c.OrderUpTo)
	c.AtOnce()
}
