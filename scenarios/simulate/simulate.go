package simulate

import (
	"context"
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
	"loamcast/sim/replicate"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Source   string // what the answer says it was made from
	Invented bool
	Version  string
	Workers  int                   // 0 for all cores
	Progress func(done, total int) // may be nil
}

// Run simulates a facility file and returns its answer. An error carries the
// replication, the simulated date and the event, or is ctx's.
func Run(ctx context.Context, f *facilityfile.File, o Options) (*answer.Answer, error) {
	p, err := plant.New(f.Model)
	if err != nil {
		return nil, fmt.Errorf("preparing %s: %w", f.Name, err)
	}
	records, err := Records(ctx, p, f.Seed, f.Replications, o)
	if err != nil {
		return nil, err
	}
	n := f.Replications
	return answer.Compute(answer.Run{
		Facility: f.Name,
		Source:   o.Source,
		Invented: o.Invented,
		Version:  o.Version,
		Seed:     f.Seed,
		Target:   f.Planning.Target,
		Plant:    p,
		Records:  records[:n],
		Free:     records[n:],
	}), nil
}

// Records returns n replications of the plant as it is, followed by the same n
// with unlimited vessels. Replication i of both meets the same production,
// cake and deliveries.
func Records(ctx context.Context, p *plant.Plant, seed uint64, n int, o Options) ([]*plant.Record, error) {
	free := p.Unlimited()
	return replicate.Run(ctx, 2*n, o.Workers, func(ctx context.Context, i int) (*plant.Record, error) {
		which, rep := p, i
		if i >= n {
			which, rep = free, i-n
		}
		return which.Run(ctx, random.Key{Seed: seed, Replication: rep})
	}, o.Progress)
}
