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
	Replications int // 0 for the file's
}

// Ask plays a facility as its file has it and says what each year holds. An error
// carries the replication, the simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	n := o.Replications
	if n == 0 {
		n = s.File.Replications
	}
	p := s.Base()
	records, err := Records(ctx, p, s.File.Seed, n, s.Workers, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	return Compute(Runs{Basis: setup.Basis(s.File), Plant: p, Records: records[:n], Free: records[n:]}), nil
}

// Records returns n replications of the plant as it is, followed by the same n
// with unlimited vessels. Replication i of both meets the same production,
// cake and deliveries.
func Records(ctx context.Context, p *plant.Plant, seed uint64, n, workers int, progress func(done, total int)) ([]*plant.Record, error) {
	free := p.Unlimited().AirByYear() // of them the vessels in use are asked alone
	return replicate.Run(ctx, 2*n, workers, func(ctx context.Context, i int) (*plant.Record, error) {
		which, rep := p, i
		if i >= n {
			which, rep = free, i-n
		}
		return which.Run(ctx, random.Key{Seed: seed, Replication: rep})
	}, progress)
}
