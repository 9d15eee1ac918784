package study

import (
	"context"
	"fmt"
	"iter"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
	"loamcast/sim/replicate"
)

// Study is a facility made ready for many runs, which share its tables of
// courses. It is safe for concurrent use.
type Study struct {
	File    *facilityfile.File
	Workers int // 0 for all cores

	base    *plant.Plant
	keep    func(*process.Responses) // is told of its tables; nil if nobody keeps them
	runs    plant.Runs               // nil if nobody keeps them
	once    *memo
	workers *workers
}

// New prepares a facility.
func New(f *facilityfile.File, workers int) (*Study, error) {
	base, err := plant.New(f.Model)
	if err != nil {
		return nil, fmt.Errorf("preparing %s: %w", f.Name, err)
	}
	return &Study{File: f, Workers: workers, base: base, once: &memo{}, workers: newWorkers(workers)}, nil
}

// Keep shows keep the tables of courses of the study, as [plant.Plant.Keep] does, before
// anything is simulated.
func (s *Study) Keep(keep func(*process.Responses)) {
	s.keep = keep
	s.base.Keep(keep)
}

// KeepRuns has what runs of the study leave looked up and kept, as [plant.Plant.KeepRuns]
// does.
func (s *Study) KeepRuns(r plant.Runs) {
	s.runs = r
	s.base.KeepRuns(r)
}

// UnderSeed is a study of the same file whose chance events follow from a seed.
func (s *Study) UnderSeed(seed uint64) (*Study, error) {
	if s.File.Seed == seed {
		return s, nil
	}
	f := *s.File
	f.Seed = seed
	other, err := New(&f, s.Workers)
	if err == nil && s.keep != nil {
		other.Keep(s.keep)
	}
	if err == nil {
		other.KeepRuns(s.runs)
	}
	return other, err
}

// Once returns what make makes for a key, which is made the first time only: what one
// question has simulated another need not simulate again. It must depend on nothing
// but the study's file and the key.
func (s *Study) Once(key any, make func() (any, error)) (any, error) {
	return s.once.get(made{s.File, key}, make)
}

// Base is the plant as the file has it.
func (s *Study) Base() *plant.Plant { return s.base }

// Case is one way in which the future may go, and what is done about it.
type Case struct {
	Growth int // place in the file's growth scenarios
	// Vessels are added to those of the file from the first day simulated, each
	// with an aerated place where places are limited, of the classes that are ordered
	// next ([facilityfile.File.NextClasses]).
	Vessels int
	Steps   []facilityfile.Step // beside the file's changes
	// First and Years are the part of the horizon that is simulated, see
	// [plant.Model.Window]; no Years means all of it.
	First, Years int
	Unlimited    bool // a vessel for every load
	// Expected leaves the uncertain inputs as they are in the file.
	Expected bool
	// Quantiles sets the uncertain inputs to quantiles of their distributions, see
	// [facilityfile.Planning.At]; nil draws them.
	Quantiles []float64
	// Alter changes the model of each run, uncertain inputs set, as no step of
	// the file can: it must not write through what the model points to.
	Alter func(*plant.Model)
}

// Run is one replication of a case.
type Run struct {
	*Case
	Replication int
}

// Result is what a run found. What the air took and the blowers used is right by the year
// only, see [plant.Plant.AirByYear].
type Result struct {
	Run
	Plant   *plant.Plant // as simulated
	Economy facilityfile.Economy
	Record  *plant.Record
}

// Each simulates runs on all workers and returns what reduce makes of each, in
// their order. The record is not kept, so that memory depends on what reduce
// returns. An error carries the replication, the simulated date and the event.
func Each[T any](ctx context.Context, s *Study, runs []Run, reduce func(*Result) (T, error), progress func(done, total int)) ([]T, error) {
	return replicate.Run(ctx, len(runs), s.Workers, reduced(s, runs, reduce), progress)
}

// InOrder is [Each] for what is not to be held: it hands on what reduce makes of each run,
// in the order of the runs, to who ranges over it ([replicate.InOrder]).
func InOrder[T any](ctx context.Context, s *Study, runs []Run, reduce func(*Result) (T, error), progress func(done, total int)) iter.Seq2[T, error] {
	return replicate.InOrder(ctx, len(runs), s.Workers, reduced(s, runs, reduce), progress)
}

// reduced is what is to be done about each of some runs.
func reduced[T any](s *Study, runs []Run, reduce func(*Result) (T, error)) func(context.Context, int) (T, error) {
	return func(ctx context.Context, i int) (out T, err error) {
		result, err := s.Simulate(ctx, runs[i])
		if err != nil {
			return out, err
		}
		return reduce(result)
	}
}

// Simulate does one run, as soon as there is a worker for it.
func (s *Study) Simulate(ctx context.Context, r Run) (*Result, error) {
	if err := s.workers.begin(ctx); err != nil {
		return nil, err
	}
	defer s.workers.end()
	key := random.Key{Seed: s.File.Seed, Replication: r.Replication}
	model, economy := s.model(r, key)
	p, err := s.plant(r.Case, model)
	if err != nil {
		return nil, err
	}
	rec, err := p.Run(ctx, key)
	if err != nil {
		return nil, err
	}
	return &Result{Run: r, Plant: p, Economy: economy, Record: rec}, nil
}

// Plant returns the plant of a case with the uncertain inputs as they are in the
// file.
func (s *Study) Plant(c *Case) (*plant.Plant, error) {
	m, _ := s.model(Run{Case: &Case{Growth: c.Growth, Expected: true}}, random.Key{})
	return s.plant(c, m)
}

// model returns the file's model with the growth of a run and its uncertain
// inputs, and the economy drawn with them.
func (s *Study) model(r Run, key random.Key) (plant.Model, facilityfile.Economy) {
	p := &s.File.Planning
	m := s.File.Model
	if len(p.Growths) > 0 {
		m.Feed.Growth = p.Growths[r.Growth].Growth
	}
	switch {
	case r.Expected:
		return m, p.Economy
	case r.Quantiles != nil:
		return p.At(m, r.Quantiles)
	}
	return p.Draw(m, key)
}

// plant returns the plant of a case from its model.
func (s *Study) plant(c *Case, m plant.Model) (*plant.Plant, error) {
	if m.Vessels.ClassCount() == 1 {
		m.Vessels.Add(0, c.Vessels) // fewer, too
	} else {
		for _, class := range s.File.NextClasses(c.Vessels) {
			m.Vessels.Add(class, 1)
		}
	}
	if m.Yard.Places > 0 {
		m.Yard.Places += c.Vessels
	}
	if len(c.Steps) > 0 {
		changes := make([]plant.Change, 0, len(m.Changes)+len(c.Steps))
		changes = append(changes, m.Changes...)
		for _, step := range c.Steps {
			changes = append(changes, step.Change)
		}
		m.Changes = changes
	}
	if c.Alter != nil {
		c.Alter(&m)
	}
	if c.Years > 0 {
		m = m.Window(c.First, c.Years)
	}
	p, err := s.base.With(m)
	if err != nil {
		return nil, err
	}
	if c.Unlimited {
		p = p.Unlimited()
	}
	return p.AirByYear().Unmarked(), nil
}

// Triggered reports whether the file or a case has a change that waits for a
// sign, so that a part of the horizon cannot be simulated alone.
func (s *Study) Triggered(c *Case) bool {
	for _, change := range s.File.Model.Changes {
		if change.Trigger.Waits() {
			return true
		}
	}
	for _, step := range c.Steps {
		if step.Trigger.Waits() {
			return true
		}
	}
	return false
}

// Runs lists the replications first to first+n−1 of a case.
func Runs(c *Case, first, n int) []Run {
	out := make([]Run, n)
	for i := range out {
		out[i] = Run{Case: c, Replication: first + i}
	}
	return out
}
