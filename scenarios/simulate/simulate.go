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
	p := s.Base()
	first := -1
	if o.Quarter != "" {
		at, err := monthOf(o.Quarter, p.Start, p.Years)
		if err != nil {
			return nil, err
		}
		first = at
	}
	var stays []plant.Stay
	records, err := Records(ctx, p, s.File.Seed, n, s.Workers, func(s plant.Stay) { stays = append(stays, s) }, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	a := Compute(Runs{Basis: setup.Basis(s.File), Plant: p, Records: records[:n], Free: records[n:]})
	asked := first >= 0
	if !asked {
		first = fullestQuarter(records[0].Months)
	}
	a.Occupancy = occupancy(p, records[0], stays, first, asked)
	return a, nil
}

// Records returns n replications of the plant as it is, followed by the same n
// with unlimited vessels. Replication i of both meets the same production,
// cake and deliveries. It tells each of every stay of the vessels in the first.
func Records(ctx context.Context, p *plant.Plant, seed uint64, n, workers int, each func(plant.Stay), progress func(done, total int)) ([]*plant.Record, error) {
	free := p.Unlimited()
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
