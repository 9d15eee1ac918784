package stats

import (
	"context"
	"fmt"
	"math"

	"loamcast/sim/replicate"
)

// Estimator makes an interval of the given level of one number for each
// replication. [MeanInterval] is one.
type Estimator func(xs []float64, level float64) (Interval, error)

// OfQuantile returns the estimator of the q-quantile, [QuantileInterval].
func OfQuantile(q float64) Estimator {
	return func(xs []float64, level float64) (Interval, error) { return QuantileInterval(xs, q, level) }
}

// OfShare returns the estimator, [Wilson], of the share of replications whose
// number is above limit.
func OfShare(limit float64) Estimator {
	return func(xs []float64, level float64) (Interval, error) {
		above := 0
		for _, x := range xs {
			if x > limit {
				above++
			}
		}
		return Wilson(above, len(xs), level)
	}
}

// Target is a quantity to be known well enough, and how well that is.
type Target[T any] struct {
	Name     string
	Value    func(T) float64 // the number of one replication
	Estimate Estimator
	Level    float64 // confidence of the interval, a fraction

	// The half-width to come below: Absolute in the unit of the value, or Relative
	// to the size of the estimate, a fraction. Zero asks for none; with both, one of
	// them is enough, so that an estimate near zero can be reached at all.
	Absolute, Relative float64
}

// Finding is what is known of a target at the end.
type Finding struct {
	Name     string
	Interval Interval
	Wanted   float64 // half-width asked for, at this estimate
	Reached  bool
	// Projected is about the number of replications that would reach it, from the
	// square-root law: the half-width halves with four times the replications. It
	// is 0 when reached, or when no number can be named: the interval has no end
	// yet, or nothing but no width at all would do.
	Projected int
}

// String says in words how far the target was reached.
func (f Finding) String() string {
	if f.Reached {
		return fmt.Sprintf("%s: %.4g ± %.3g, as asked", f.Name, f.Interval.Estimate, f.Interval.HalfWidth())
	}
	s := fmt.Sprintf("%s: %.4g ± %.3g, not the ± %.3g asked for", f.Name, f.Interval.Estimate, f.Interval.HalfWidth(), f.Wanted)
	if f.Projected > 0 {
		s += fmt.Sprintf("; that takes about %d replications", f.Projected)
	}
	return s
}

// Effort limits the replications spent on precision.
type Effort struct {
	First   int // replications before the first look, 2 or more
	Batch   int // between two looks, 1 or more; workers share a batch
	Most    int // at most, First or more
	Workers int // as for replicate.Run; no influence on results
}

// Outcome is the result of [Replicate].
type Outcome[T any] struct {
	Results  []T // in the order of the replications
	Findings []Finding
	Reached  bool // all targets
}

// Replicate runs the job for replication 0, 1, 2, … until every target is
// reached, or Most have been run, and says which it was. It looks after First
// replications and then after each batch, all targets at once, so what it returns
// depends on the numbers in Effort and not on the number of workers.
//
// The rule is that of Chow and Robbins (1965; also Law, Simulation Modeling and
// Analysis, ch. 9; both from memory): its confidence is that of the interval as
// the width asked for goes to zero. To stop as soon as the interval is short
// favours samples that look calmer than they are: with few replications first,
// the true confidence is some per cent lower, and 20 or more are advised. Each
// target holds with its own level; for all of them together see [Simultaneous].
//
// An interval without any width, all replications being equal, is believed only
// after [MinimumToBound] (0.95, level) replications, 59 at a level of 0.95: a
// value that fewer than one in twenty would break is not ruled out earlier.
//
// If progress is not nil it is called after each replication with the number done
// and the number planned so far, which grows batch by batch.
func Replicate[T any](
	ctx context.Context,
	effort Effort,
	targets []Target[T],
	job func(ctx context.Context, rep int) (T, error),
	progress func(done, planned int),
) (Outcome[T], error) {
	if err := effort.check(); err != nil {
		return Outcome[T]{}, err
	}
	for _, t := range targets {
		if err := t.check(); err != nil {
			return Outcome[T]{}, err
		}
	}
	var out Outcome[T]
	for n := effort.First; ; n = min(n+effort.Batch, effort.Most) {
		var err error
		if out.Results, err = extend(ctx, out.Results, n, effort.Workers, job, progress); err != nil {
			return Outcome[T]{}, err
		}
		if out.Findings, out.Reached, err = look(targets, out.Results); err != nil {
			return Outcome[T]{}, err
		}
		if out.Reached || n == effort.Most {
			return out, nil
		}
	}
}

// extend runs the replications from len(results) to n − 1 and appends them.
func extend[T any](
	ctx context.Context, results []T, n, workers int,
	job func(ctx context.Context, rep int) (T, error), progress func(done, planned int),
) ([]T, error) {
	from := len(results)
	numbered := func(ctx context.Context, i int) (result T, err error) {
		defer func() { // replicate.Run would name the place in the batch
			if v := recover(); v != nil {
				err = fmt.Errorf("replication %d: %w", from+i, replicate.NewPanicError(v))
			}
		}()
		return job(ctx, from+i)
	}
	report := func(done, _ int) {
		if progress != nil {
			progress(from+done, n)
		}
	}
	more, err := replicate.Run(ctx, n-from, workers, numbered, report)
	return append(results, more...), err
}

// look makes the findings of all targets.
func look[T any](targets []Target[T], results []T) (findings []Finding, reached bool, err error) {
	reached = true
	xs := make([]float64, len(results))
	for _, t := range targets {
		for rep, r := range results {
			xs[rep] = t.Value(r)
			if math.IsNaN(xs[rep]) || math.IsInf(xs[rep], 0) {
				return nil, false, fmt.Errorf("stats: %s of replication %d is %v", t.Name, rep, xs[rep])
			}
		}
		f, err := t.find(xs)
		if err != nil {
			return nil, false, fmt.Errorf("%s: %w", t.Name, err)
		}
		findings = append(findings, f)
		reached = reached && f.Reached
	}
	return findings, reached, nil
}

// find compares the interval of the observations with what is asked for.
func (t Target[T]) find(xs []float64) (Finding, error) {
	i, err := t.Estimate(xs, t.Level)
	if err != nil {
		return Finding{}, err
	}
	f := Finding{Name: t.Name, Interval: i, Wanted: max(t.Absolute, t.Relative*math.Abs(i.Estimate))}
	half, n := i.HalfWidth(), len(xs)
	switch {
	case half == 0:
		least := MinimumToBound(0.95, t.Level)
		if f.Reached = n >= least; !f.Reached {
			f.Projected = least
		}
	case half <= f.Wanted:
		f.Reached = true
	case f.Wanted > 0 && !math.IsInf(half, 1):
		ratio := half / f.Wanted
		f.Projected = int(min(math.Ceil(float64(n)*ratio*ratio), math.MaxInt32))
	}
	return f, nil
}

func (t Target[T]) check() error {
	if err := checkLevel(t.Level); err != nil {
		return fmt.Errorf("%s: %w", t.Name, err)
	}
	if !(t.Absolute >= 0 && t.Relative >= 0 && t.Absolute+t.Relative > 0) {
		return fmt.Errorf("stats: %s asks for a half-width of %v, or %v of the estimate", t.Name, t.Absolute, t.Relative)
	}
	return nil
}

func (e Effort) check() error {
	if e.First < 2 || e.Batch < 1 || e.Most < e.First {
		return fmt.Errorf("stats: can't begin with %d replications, add %d at a time and end at %d", e.First, e.Batch, e.Most)
	}
	return nil
}
