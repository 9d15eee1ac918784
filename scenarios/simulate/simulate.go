package simulate

import (
	"context"

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
	first, err := firstWatched(s, o.Quarter)
	if err != nil {
		return nil, err
	}
	// All runs of the plant as it is come before those with a vessel for every load.
	parts, err := replicate.Run(ctx, 2*n, s.Workers, func(ctx context.Context, i int) (Replication, error) {
		if i < n {
			return asItIs(ctx, s, i)
		}
		free, err := withVessels(ctx, s, i-n)
		return Replication{Free: free}, err
	}, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	all := parts[:n]
	for i := range all {
		all[i].Free = parts[n+i].Free
	}
	return reduce(s, setup, all, first), nil
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

// Reduce makes the answer of replications, in their order, with the vessels in a quarter as
// [Options] has it.
func Reduce(s *study.Study, setup answer.Setup, all []Replication, quarter string) (*Answer, error) {
	first, err := firstWatched(s, quarter)
	if err != nil {
		return nil, err
	}
	return reduce(s, setup, all, first), nil
}

// firstWatched returns the month of the horizon with which a quarter begins, as it is asked
// for; a negative number if it is not.
func firstWatched(s *study.Study, quarter string) (int, error) {
	if quarter == "" {
		return -1, nil
	}
	return monthOf(quarter, s.File.Model.Start, s.File.Model.Years)
}

// reduce makes the answer, with the vessels in the quarter that begins in a month of the
// horizon; if that is negative, in the one in which the holding is first at its fullest.
func reduce(s *study.Study, setup answer.Setup, all []Replication, quarter int) *Answer {
	r := Runs{Basis: setup.Basis(s.File), Plant: s.Base()}
	for _, one := range all {
		r.Records, r.Free = append(r.Records, one.Usual), append(r.Free, one.Free)
	}
	a := Compute(r)
	asked := quarter >= 0
	if !asked {
		quarter = fullestQuarter(all[0].Usual.Months)
	}
	a.Occupancy = occupancy(r.Plant, all[0].Usual, all[0].Stays, quarter, asked)
	return a
}
