package vesselplan

import (
	"context"
	"slices"
	"sync"

	"loamcast/scenarios/study"
)

// wholeKey is that under which a study keeps runs of whole horizons.
type wholeKey struct{ growth, vessels int }

// horizons are replications of the whole horizon.
type horizons struct {
	mu            sync.Mutex
	byReplication map[int]horizon
}

// wholeOf are the whole horizons of a case that a study knows.
func (c *cell) wholeOf() (*horizons, error) {
	kept, err := c.study.Once(wholeKey{c.Growth, c.Vessels}, func() (any, error) { return &horizons{byReplication: map[int]horizon{}}, nil })
	if err != nil {
		return nil, err
	}
	return kept.(*horizons), nil
}

// runWhole is run where whole horizons are simulated: those that the study knows are not
// simulated again.
func (c *cell) runWhole(ctx context.Context, runs []study.Run) ([]horizon, error) {
	known, err := c.wholeOf()
	if err != nil {
		return nil, err
	}
	known.mu.Lock()
	defer known.mu.Unlock()
	unknown := slices.DeleteFunc(slices.Clone(runs), func(r study.Run) bool { return known.byReplication[r.Replication].years != nil })
	if len(unknown) > 0 {
		found, err := c.play(ctx, unknown)
		if err != nil {
			return nil, err
		}
		for i, r := range unknown {
			known.byReplication[r.Replication] = found[i]
		}
	}
	out := make([]horizon, len(runs))
	for i, r := range runs {
		out[i] = known.byReplication[r.Replication]
	}
	return out, nil
}
