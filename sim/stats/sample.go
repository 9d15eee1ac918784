package stats

import (
	"cmp"
	"math"
	"slices"
)

// RankError is by how much of the number of observations the rank of a quantile that a
// [Sample] gives may be off, once it holds a summary.
const RankError = 1.0 / 1000

// Sample is observations of one number that come one by one. It keeps so many of them, and
// gives their quantiles as [Quantile] does. Of more it keeps a summary: a quantile is then one of the observations, at a rank that is
// off by [RankError] of their number at the most, or by half a place where that is more. What it gives follows from the
// observations in their order alone.
//
// The summary is that of Greenwald and Khanna (SIGMOD 2001; from memory), into which sorted
// batches are merged. It leaves out the bands by which they bound its room for the worst
// order: observations that come by chance take some 850 marks, however many there are.
type Sample struct {
	keeps   int
	n       int
	sum     float64
	fresh   []float64 // all of them, or those that are not in the summary yet
	summary []mark    // in rising order; empty as long as fresh has all
}

// mark is one of the observations, of which the rank is known within bounds.
type mark struct {
	value float64
	// The least rank that it may have is that of the mark before and step more; the most,
	// slack more than its least.
	step, slack int32
}

// NewSample returns a sample that keeps so many observations, with room for those that are
// expected.
func NewSample(keeps, expected int) *Sample {
	return &Sample{keeps: keeps, fresh: make([]float64, 0, min(keeps, expected))}
}

// batches is how many batches, of observations to be merged into the summary, what is kept
// before there is one would make: fewer, and the batches take more room than the summary.
const batches = 4

// Add takes one observation.
func (s *Sample) Add(x float64) {
	switch {
	case s.n == s.keeps:
		s.merge()
		s.fresh = make([]float64, 0, max(1, s.keeps/batches))
	case s.n > s.keeps && len(s.fresh) == cap(s.fresh):
		s.merge()
	}
	s.n++
	s.sum += x
	s.fresh = append(s.fresh, x)
}

// Mean returns the mean, added up in the order in which the observations came.
func (s *Sample) Mean() float64 { return s.sum / float64(s.n) }

// Quantile returns the q-quantile, as the function [Quantile] does of all observations while
// they are kept.
func (s *Sample) Quantile(q float64) float64 {
	if s.n <= s.keeps {
		slices.Sort(s.fresh)
		return SortedQuantile(s.fresh, q)
	}
	s.merge()
	rank := 1 + q*float64(s.n-1)
	var nearest mark
	off, least := float64(s.n), int32(0)
	for _, m := range s.summary {
		least += m.step
		if o := max(rank-float64(least), float64(least+m.slack)-rank); o < off {
			nearest, off = m, o
		}
	}
	return nearest.value
}

// Above returns how many of the observations are above a value: exactly while they are
// kept, and then with a count that is off by [RankError] of their number at the most, or by
// half of one.
func (s *Sample) Above(x float64) int {
	if s.n <= s.keeps {
		n := 0
		for _, seen := range s.fresh {
			if seen > x {
				n++
			}
		}
		return n
	}
	s.merge()
	least := int32(0)
	for _, m := range s.summary {
		if m.value > x {
			// So many that are not above there may be at the most; least there are.
			most := least + m.step + m.slack - 1
			return s.n - int(least+most)/2
		}
		least += m.step
	}
	return 0
}

// Len returns how many observations there are.
func (s *Sample) Len() int { return s.n }

// merge takes the fresh observations into the summary, and joins neighbours that are no
// longer needed: the rank of any value is known well enough as long as no step and slack
// together are more than twice the error allowed.
func (s *Sample) merge() {
	slices.Sort(s.fresh)
	most := int32(2 * RankError * float64(s.n))
	merged := make([]mark, 0, len(s.summary)+len(s.fresh))
	add := func(m mark) {
		// The least of all stays, so that no quantile lies below it.
		if last := len(merged) - 1; last > 0 && merged[last].step+m.step+m.slack <= most {
			m.step += merged[last].step
			merged[last] = m
			return
		}
		merged = append(merged, m)
	}
	rest, before := s.fresh, mark{value: math.NaN()}
	for _, m := range s.summary {
		for ; len(rest) > 0 && cmp.Less(rest[0], m.value); rest = rest[1:] {
			// It may lie behind any of those that m stands for but m itself; next to the
			// mark before if it is the same.
			slack := m.step + m.slack - 1
			if rest[0] == before.value {
				slack = before.slack
			}
			add(mark{rest[0], 1, slack})
		}
		add(m)
		before = m
	}
	for _, x := range rest {
		add(mark{x, 1, 0})
	}
	s.summary, s.fresh = slices.Clone(merged), s.fresh[:0] // merged has room that it does not need
}
