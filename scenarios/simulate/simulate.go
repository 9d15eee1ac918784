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
	records, err := Records(ctx, s.Base(), s.File.Seed, n, s.Workers, setup.Part("simulating"))
	if err != nil {
		return nil, err
	}
	all := make([]Replication, n)
	for i := range all {
		all[i] = Replication{Usual: records[i], Free: records[n+i]}
	}
	return Reduce(s, setup, all), nil
}

// Replication is what one replication contributes to the answer: the plant as it is, and
// the same days with a vessel for every load.
type Replication struct{ Usual, Free *plant.Record }

// Simulate plays one replication.
func Simulate(ctx context.Context, s *study.Study, replication int) (r Replication, err error) {
	key := random.Key{Seed: s.File.Seed, Replication: replication}
	if r.Usual, err = s.Base().Run(ctx, key); err != nil {
		return r, err
	}
	r.Free, err = s.Base().Unlimited().Run(ctx, key)
	return r, err
}

// Reduce makes the answer of replications, in their order.
func Reduce(s *study.Study, setup answer.Setup, all []Replication) *Answer {
	r := Runs{Basis: setup.Basis(s.File), Plant: s.Base()}
	for _, one := range all {
		r.Records, r.Free = append(r.Records, one.Usual), append(r.Free, one.Free)
	}
	return Compute(r)
}

// Records returns n replications of the plant as it is, followed by the same n
// with unlimited vessels. Replication i of both meets the same production,
// cake and deliveries.
func Records(ctx context.Context, p *plant.Plant, seed uint64, n, workers int, progress func(done, total int)) ([]*plant.Record, error) {
	free := p.Unlimited()
	return replicate.Run(ctx, 2*n, workers, func(ctx context.Context, i int) (*plant.Record, error) {
		which, rep := p, i
		if i >= n {
			which, rep = free, i-n
		}
		return which.Run(ctx, random.Key{Seed: seed, Replication: rep})
	}, progress)
}
