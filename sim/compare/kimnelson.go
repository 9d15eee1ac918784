package compare

import (
	"context"
	"math"

	"gonum.org/v1/gonum/stat"
)

// together is the number of replications that survivors run at a time, for the
// cores to share. Those behind the replication that decides are run in vain.
const together = 8

// KimNelson chooses by elimination: after First replications, and after each
// further one, an option is dropped when the sum of its numbers is behind that of
// another by more than
//
//	Indifference/2 · (h² S² / Indifference² − r), or 0 if that is less,
//
// where r is the number of replications so far, S² the variance of the difference
// of the two over the first ones, and h² that of [KimNelsonConstant]. The last to
// survive is chosen, or the best mean once no pair can tell more (Kim and Nelson
// 2001; from memory).
//
// All options are asked for the same replications, and the more luck they share
// the fewer replications it takes.
func KimNelson(ctx context.Context, options []Option, setup Setup, zone Zone) (Selection, error) {
	if err := checkAll(options, setup, zone); err != nil {
		return Selection{}, err
	}
	s := newSampler(options, setup)
	if err := s.extend(ctx, s.everyone(setup.First)); err != nil {
		return Selection{}, err
	}
	e := newElimination(s, zone)
	for n := setup.First; ; n++ {
		enough, err := e.reach(ctx, n)
		if err != nil {
			return Selection{}, err
		}
		if !enough {
			return e.selection(false), nil
		}
		if float64(n) > e.last {
			return e.selection(true), nil
		}
		if e.screen(n); len(e.alive) == 1 {
			return e.selection(true), nil
		}
	}
}

// elimination is the state of [KimNelson].
type elimination struct {
	*sampler
	zone    Zone
	reaches [][]float64 // h²S²/δ² of each pair: the replication from which its allowance is 0
	last    float64     // the largest of them
	alive   []int       // in rising order
	sums    []float64   // of the first n numbers, of those alive
	dropped []int
}

func newElimination(s *sampler, zone Zone) *elimination {
	k := len(s.options)
	e := &elimination{sampler: s, zone: zone, reaches: make([][]float64, k), sums: make([]float64, k), dropped: make([]int, k)}
	h2 := KimNelsonConstant(k, s.setup.First, zone.Confidence)
	for i := range k {
		e.alive = append(e.alive, i)
		e.reaches[i] = make([]float64, k)
		for l := range k {
			e.reaches[i][l] = h2 * stat.Variance(minus(s.values[i], s.values[l]), nil) / (zone.Indifference * zone.Indifference)
			e.last = max(e.last, math.Floor(e.reaches[i][l]))
		}
		for _, x := range s.values[i][:s.setup.First-1] {
			e.sums[i] += x
		}
	}
	return e
}

// reach brings all that are alive to n replications, and their sums with them. It
// is false when that is not allowed.
func (e *elimination) reach(ctx context.Context, n int) (enough bool, err error) {
	if len(e.values[e.alive[0]]) < n {
		allowed := (e.setup.Most - e.runs) / len(e.alive)
		useful := int(min(e.last+2-float64(n), together))
		batch := min(useful, allowed)
		if batch == 0 {
			return false, nil
		}
		more := e.everyone(0)
		for _, i := range e.alive {
			more[i] = batch
		}
		if err := e.extend(ctx, more); err != nil {
			return false, err
		}
	}
	for _, i := range e.alive {
		e.sums[i] += e.values[i][n-1]
	}
	return true, nil
}

// screen drops those that are too far behind somebody after n replications.
func (e *elimination) screen(n int) {
	var survivors []int
	for _, i := range e.alive {
		if e.behind(i, n) {
			e.dropped[i] = n
		} else {
			survivors = append(survivors, i)
		}
	}
	e.alive = survivors
}

func (e *elimination) behind(i, n int) bool {
	for _, l := range e.alive {
		allowance := max(e.zone.Indifference/2*(e.reaches[i][l]-float64(n)), 0)
		if e.setup.Goal.lead(e.sums[l], e.sums[i]) > allowance {
			return true
		}
	}
	return false
}

// selection chooses the best sum of those alive.
func (e *elimination) selection(reached bool) Selection {
	best := e.alive[0]
	for _, i := range e.alive {
		if e.setup.Goal.better(e.sums[i], e.sums[best]) {
			best = i
		}
	}
	return Selection{
		Best:    best,
		Reached: reached,
		Chance:  chanceOf(best, e.values, e.setup.Goal),
		Values:  e.values,
		Dropped: e.dropped,
	}
}

// minus returns the differences of what belongs together, as far as both go.
func minus(a, b []float64) []float64 {
	d := make([]float64, min(len(a), len(b)))
	for i := range d {
		d[i] = a[i] - b[i]
	}
	return d
}
