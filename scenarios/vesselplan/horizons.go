package vesselplan

import (
	"context"
	"sync"

	"loamcast/scenarios/study"
)

// wholeKey is that under which a study keeps runs of whole horizons.
type wholeKey struct{ growth, vessels int }

// horizons are replications of the whole horizon, from the first on, year by year.
type horizons struct {
	mu            sync.Mutex
	byReplication [][]trial
}

// wholeOf are the whole horizons of a case that a study knows.
func (c *cell) wholeOf() (*horizons, error) {
	kept, err := c.study.Once(wholeKey{c.Growth, c.Vessels}, func() (any, error) { return &horizons{}, nil })
	if err != nil {
		return nil, err
	}
	return kept.(*horizons), nil
}

// runWhole is run where whole horizons are simulated: those that the study knows are not
// simulated again.
func (c *cell) runWhole(ctx context.Context, runs []study.Run) ([][]trial, error) {
	known, err := c.wholeOf()
	if err != nil {
		return nil, err
	}
	known.mu.Lock()
	defer known.mu.Unlock()
	from := runs[0].Replication
	if have := len(known.byReplication); have < from+len(runs) {
		found, err := c.play(ctx, runs[have-from:])
		if err != nil {
			return nil, err
		}
		known.byReplication = append(known.byReplication, found...)
	}
	return known.byReplication[from : from+len(runs)], nil
}
