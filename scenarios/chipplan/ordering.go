package chipplan

import (
	"cmp"
	"context"
	"math"
	"slices"

	"loamcast/scenarios/fiscal"
	"loamcast/sim/replicate"
	"loamcast/sim/stats"
)

// How finely reorder points are tried, how far beyond the store, and about how many
// rules of one store at most: one that takes more is gone through in longer steps.
const (
	stepsPerTruckload = 10
	largestStore      = 8 // times the store
	mostRules         = 2000
)

// shelf is what the search knows: histories, the store, and what stock costs.
type shelf struct {
	histories []*history // those of a replication in a row
	streams   int        // of lead times, a history each, of every replication
	store     float64    // m3
	truckload float64    // m3
	cost      CostModel
	workers   int
}

// rules lists the reorder points and order sizes that a store of so many m3
// takes: orders of whole truckloads, reorder points in tenths of one, or of both every
// so many where these are too many.
func (s *shelf) rules(store float64) []Rule {
	var list []Rule
	loads := store / s.truckload
	every := max(1, math.Ceil(math.Sqrt(loads*loads/2*stepsPerTruckload/mostRules)))
	step := every * s.truckload / stepsPerTruckload
	for trucks := 1; ; trucks += int(every) {
		order := float64(trucks) * s.truckload * (1 + 1e-12) // never less than whole trucks by rounding
		if order > store {
			return list
		}
		for k := 0; ; k++ {
			r := Rule{Reorder: float64(k) * step, OrderUpTo: float64(k)*step + order}
			if r.OrderUpTo > store {
				break
			}
			list = append(list, r)
		}
	}
}

// trial tries a rule on all histories.
func (s *shelf) trial(r Rule) Trial {
	years := len(s.histories[0].begins) - 1
	shares := make([][]float64, years) // of the streams that run short, by replication
	for y := range shares {
		shares[y] = make([]float64, len(s.histories)/s.streams)
	}
	t := Trial{Rule: r}
	coming := make([]float64, len(s.histories[0].use))
	for i, h := range s.histories {
		o := h.try(r, coming)
		t.MeanStock += o.meanStock
		t.OrdersPerYear += o.orders
		for y, short := range o.short {
			if short {
				shares[y][i/s.streams] += 1 / float64(s.streams)
			}
		}
	}
	n := float64(len(s.histories))
	t.MeanStock /= n
	t.OrdersPerYear /= n
	t.Inventory.Estimate = -1
	for _, xs := range shares {
		if c := shareInterval(xs); c.Estimate > t.Inventory.Estimate {
			t.Inventory = c
		}
	}
	if s.cost.InMoney {
		t.Cost = s.cost.Capital*t.MeanStock + s.cost.Ordering*t.OrdersPerYear
	}
	return t
}

// shareInterval estimates a chance from its share in each replication. Streams
// of one replication are not independent, replications are: hence Student's t, or,
// where they do not vary, Wilson's interval with a trial for each replication.
func shareInterval(shares []float64) stats.Interval {
	interval, err := stats.MeanInterval(shares, 0.95)
	if err != nil || interval.HalfWidth() == 0 {
		return fiscal.Chance(shares, 0.5)
	}
	interval.Low, interval.High = max(0, interval.Low), min(1, interval.High)
	return interval
}

// compare tries every rule of a store and returns the trials, the cheapest
// first. Rules that cost the same come in the order of their chances.
func (s *shelf) compare(ctx context.Context, store float64) ([]Trial, error) {
	rules := s.rules(store)
	trials, err := replicate.Run(ctx, len(rules), s.workers, func(_ context.Context, i int) (Trial, error) {
		return s.trial(rules[i]), nil
	}, nil)
	if err != nil {
		return nil, err
	}
	worth := func(t Trial) float64 {
		if s.cost.InMoney {
			return t.Cost
		}
		return t.MeanStock
	}
	slices.SortStableFunc(trials, func(a, b Trial) int {
		return cmp.Or(cmp.Compare(worth(a), worth(b)), cmp.Compare(a.Inventory.Estimate, b.Inventory.Estimate))
	})
	return trials, nil
}

// choose returns the cheapest trial whose chance is within the limit.
func choose(trials []Trial, limit float64) (Trial, bool) {
	i := slices.IndexFunc(trials, func(t Trial) bool { return t.Inventory.Estimate <= limit })
	if i < 0 {
		return Trial{}, false
	}
	return trials[i], true
}

// search finds the cheapest rule within the limit: in the store, or, if it is
// too small for any, in the next larger one of a row that doubles. tried counts
// the rules.
func (s *shelf) search(ctx context.Context, limit float64) (best Trial, fits bool, tried int, err error) {
	for store := s.store; store <= largestStore*s.store; store *= 2 {
		trials, err := s.compare(ctx, store)
		if err != nil {
			return best, false, tried, err
		}
		tried += len(trials)
		if best, ok := choose(trials, limit); ok {
			return best, store == s.store, tried, nil
		}
		if len(trials) > 0 { // for want of better
			best = slices.MinFunc(trials, func(a, b Trial) int { return cmp.Compare(a.Inventory.Estimate, b.Inventory.Estimate) })
		}
	}
	return best, false, tried, nil
}
