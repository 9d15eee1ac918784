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
	var stays []plant.Stay
	records, err := Records(ctx, s.Base(), s.File.Seed, n, s.Workers, func(s plant.Stay) { stays = append(stays, s) }, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	all := make([]Replication, n)
	for i := range all {
		all[i] = Replication{Usual: records[i], Free: records[n+i]}
	}
	all[0].Stays = stays
	return reduce(s, setup, all, first), nil
}

// Replication is what one replication contributes to the answer: the plant as it is, and
// the same days with a vessel for every load; and the first what its vessels are in.
type Replication struct {
	Usual, Free *plant.Record
	Stays       []plant.Stay
}

// Simulate plays one replication.
func Simulate(ctx context.Context, s *study.Study, replication int) (r Replication, err error) {
	key := random.Key{Seed: s.File.Seed, Replication: replication}
	if replication == 0 {
		r.Usual, err = s.Base().RunWatched(ctx, key, func(s plant.Stay) { r.Stays = append(r.Stays, s) })
	} else {
		r.Usual, err = s.Base().Run(ctx, key)
	}
	if err != nil {
		return r, err
	}
	r.Free, err = unlimited(s.Base()).Run(ctx, key)
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

// Records returns n replications of the plant as it is, followed by the same n
// with unlimited vessels. Replication i of both meets the same production,
// cake and deliveries. It tells each of every stay of the vessels in the first.
func Records(ctx context.Context, p *plant.Plant, seed uint64, n, workers int, each func(plant.Stay), progress func(done, total int)) ([]*plant.Record, error) {
	free := unlimited(p)
	return replicate.Run(ctx, 2*n, workers, func(ctx context.Context, i int) (*plant.Record, error) {
		key := random.Key{Seed: seed, Replication: i % n}
		switch {
		case i == 0:
			return p.RunWatched(ctx, key, each)
		case i < n:
			return p.Run(ctx, key)
		}
		return free.Run(ctx, key)
	}, progress)
}

// unlimited is the plant with a vessel for every load, of which the vessels in use are asked
// alone.
func unlimited(p *plant.Plant) *plant.Plant { return p.Unlimited().AirByYear().Unmarked() }
