package compare

import (
	"context"
	"fmt"
	"math"

	"loamcast/sim/replicate"
)

// Option runs one replication of one option and returns its number. Options that
// are asked for the same replication should meet the same random numbers.
type Option func(ctx context.Context, rep int) (float64, error)

// Goal says which numbers are good.
type Goal int

const (
	Lowest  Goal = iota // as of costs
	Highest             // as of output
)

// better reports whether number a is better than b.
func (g Goal) better(a, b float64) bool { return g.lead(a, b) > 0 }

// lead is by how much a is better than b.
func (g Goal) lead(a, b float64) float64 {
	if g == Highest {
		return a - b
	}
	return b - a
}

// Setup is what a selection needs to know.
type Setup struct {
	Goal  Goal
	First int // replications of every option before the first look, 2 or more; 20 are usual
	// Most is the largest number of runs, of all options together, at least First
	// for each.
	Most    int
	Workers int // as for replicate.Run; no influence on results
	// Progress, if not nil, is called after each run with the number done and the
	// number planned so far, which may grow.
	Progress func(done, planned int)
}

// Zone is the guarantee asked for: to choose the best with the chance Confidence,
// a fraction, whenever it leads all others by Indifference or more. Of options
// closer together than that it does not matter which is chosen.
type Zone struct {
	Confidence   float64 // above 1/(number of options), below 1
	Indifference float64 // above 0
}

// Selection is the choice of a procedure.
type Selection struct {
	Best int // index of the option chosen
	// Reached says that what was asked for is fulfilled. It is false when the runs
	// allowed ended first; Best is then the best so far.
	Reached bool
	// Chance is about the chance that the choice is right, from the numbers
	// themselves and without an indifference: see [Best].
	Chance float64
	// Values are the numbers of each option in the order of its replications.
	Values [][]float64
	// Dropped tells after how many replications each was dropped, or 0 for those
	// never dropped.
	Dropped []int
}

func checkAll(options []Option, setup Setup, zone Zone) error {
	if err := setup.check(options); err != nil {
		return err
	}
	return zone.check(len(options))
}

func (s Setup) check(options []Option) error {
	switch {
	case len(options) < 2:
		return fmt.Errorf("compare: %d options, nothing to choose", len(options))
	case s.Goal != Lowest && s.Goal != Highest:
		return fmt.Errorf("compare: unknown goal %d", s.Goal)
	case s.First < 2:
		return fmt.Errorf("compare: %d replications to begin with, at least 2 are needed", s.First)
	case s.Most < s.First*len(options):
		return fmt.Errorf("compare: %d runs allowed, %d needed to begin with", s.Most, s.First*len(options))
	}
	return nil
}

func (z Zone) check(options int) error {
	if err := checkConfidence(z.Confidence, options); err != nil {
		return err
	}
	if !(z.Indifference > 0) || math.IsInf(z.Indifference, 1) {
		return fmt.Errorf("compare: a difference of %v is not one that matters", z.Indifference)
	}
	return nil
}

func checkConfidence(confidence float64, options int) error {
	if !(confidence > 1/float64(options) && confidence < 1) {
		return fmt.Errorf("compare: a confidence of %v with %d options; it must lie between 1/%d and 1", confidence, options, options)
	}
	return nil
}

// sampler collects the numbers of the options.
type sampler struct {
	options []Option
	setup   Setup
	values  [][]float64
	runs    int
}

func newSampler(options []Option, setup Setup) *sampler {
	return &sampler{options: options, setup: setup, values: make([][]float64, len(options))}
}

// run is one run: replication j of an option.
type run struct{ option, j int }

// extend makes more[i] further runs of each option i, all at the same time.
func (s *sampler) extend(ctx context.Context, more []int) error {
	var runs []run
	for i, m := range more {
		for j := range m {
			runs = append(runs, run{i, len(s.values[i]) + j})
		}
	}
	before := s.runs
	progress := func(done, total int) {
		if s.setup.Progress != nil {
			s.setup.Progress(before+done, before+total)
		}
	}
	xs, err := replicate.Run(ctx, len(runs), s.setup.Workers, func(ctx context.Context, i int) (float64, error) {
		return s.call(ctx, runs[i])
	}, progress)
	if err != nil {
		return err
	}
	for i, r := range runs {
		s.values[r.option] = append(s.values[r.option], xs[i])
	}
	s.runs += len(runs)
	return nil
}

// call makes one run; whatever goes wrong says in which.
func (s *sampler) call(ctx context.Context, r run) (x float64, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = replicate.NewPanicError(v)
		}
		if err != nil {
			err = fmt.Errorf("option %d, replication %d: %w", r.option, r.j, err)
		}
	}()
	x, err = s.options[r.option](ctx, r.j)
	if err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		err = fmt.Errorf("its number is %v", x)
	}
	return x, err
}

// everyone returns n for each option.
func (s *sampler) everyone(n int) []int {
	more := make([]int, len(s.options))
	for i := range more {
		more[i] = n
	}
	return more
}
