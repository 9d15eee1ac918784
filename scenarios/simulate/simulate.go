package simulate

import (
	"context"
	"iter"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
	"loamcast/sim/replicate"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Replications int    // 0 for the file's
	Quarter      string // first month of those in which vessels are watched; "" chooses
}

// Ask plays a facility as its file has it and says what each year holds. An error
// carries the replication, the simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	n := o.Replications
	if n == 0 {
		n = s.File.Replications
	}
	// Both runs of a replication are jobs of their own, as many workers may share one.
	halves := replicate.InOrder(ctx, 2*n, s.Workers, func(ctx context.Context, i int) (r Replication, err error) {
		if i%2 == 0 {
			return asItIs(ctx, s, i/2)
		}
		r.Free, err = withVessels(ctx, s, i/2)
		return r, err
	}, setup.Part("simulating"))
	return Reduce(s, setup, n, pairs(halves), o.Quarter)
}

// pairs puts the runs of each replication together: as the plant is, and then with a vessel
// for every load.
func pairs(halves iter.Seq2[Replication, error]) iter.Seq2[Replication, error] {
	return func(yield func(Replication, error) bool) {
		var usual *Replication
		for half, err := range halves {
			switch {
			case err != nil:
				yield(half, err)
				return
			case usual == nil:
				usual = &half
			default:
				usual.Free = half.Free
				if !yield(*usual, nil) {
					return
				}
				usual = nil
			}
		}
	}
}

// Replication is what one replication contributes to the answer: the plant as it is, and
// the same days with a vessel for every load; and the first what its vessels are in.
type Replication struct {
	Usual *plant.Record
	Free  *Free
	Stays []plant.Stay
}

// Simulate plays one replication.
func Simulate(ctx context.Context, s *study.Study, replication int) (Replication, error) {
	r, err := asItIs(ctx, s, replication)
	if err != nil {
		return r, err
	}
	r.Free, err = withVessels(ctx, s, replication)
	return r, err
}

// asItIs plays a replication of the plant as it is. Replication i meets the same
// production, cake and deliveries as that of withVessels.
func asItIs(ctx context.Context, s *study.Study, replication int) (r Replication, err error) {
	key := random.Key{Seed: s.File.Seed, Replication: replication}
	if replication == 0 {
		r.Usual, err = s.Base().RunWatched(ctx, key, func(s plant.Stay) { r.Stays = append(r.Stays, s) })
	} else {
		r.Usual, err = s.Base().Run(ctx, key)
	}
	return r, err
}

// Reduce makes the answer of n replications, in their order, with the vessels in a quarter
// as [Options] has it. It keeps the first of them alone. An error is that of all, or about
// the quarter.
func Reduce(s *study.Study, setup answer.Setup, n int, all iter.Seq2[Replication, error], quarter string) (*Answer, error) {
	from, err := firstWatched(s, quarter)
	if err != nil {
		return nil, err
	}
	t := begin(setup.Basis(s.File), s.Base(), n, answer.ExactRuns)
	var watched *Replication
	for r, err := range all {
		if err != nil {
			return nil, err
		}
		if watched == nil {
			watched = &r
		}
		t.Add(&r)
	}
	a := t.close()
	asked := from >= 0
	if !asked {
		from = fullestQuarter(watched.Usual.Months)
	}
	a.Occupancy = occupancy(t.plant, watched.Usual, watched.Stays, from, asked)
	return a, nil
}

// firstWatched returns the month of the horizon with which a quarter begins, as it is asked
// for; a negative number if it is not, which means the one in which the holding is first at
// its fullest.
func firstWatched(s *study.Study, quarter string) (int, error) {
	if quarter == "" {
		return -1, nil
	}
	return monthOf(quarter, s.File.Model.Start, s.File.Model.Years)
}
