package stats

import (
	"slices"
	"testing"
)

// decaying is a series that starts at start and forgets it: AR(1) of the given
// memory around 0, innovations of deviation 1.
func decaying(r func() float64, n int, start, memory float64) []float64 {
	xs := make([]float64, n)
	x := start
	for i := range xs {
		xs[i] = x
		x = memory*x + normal(r)
	}
	return xs
}

// Shows that the rule on the curve finds where an exponential start of 30·0.9ⁱ has
// fallen to the tolerance, 0.9ⁱ = 0.5/30 at i = 38.9, give or take the averaging;
// and that a curve which never comes to rest is not called settled.
func TestSettledFrom(t *testing.T) {
	r := newSequence(8)
	replications := make([][]float64, 200)
	for i := range replications {
		replications[i] = decaying(r, 300, 30, 0.9)
	}
	curve := make([]float64, 300) // averaged over the replications
	for _, xs := range replications {
		for i, x := range xs {
			curve[i] += x / float64(len(replications))
		}
	}
	from, settled := SettledFrom(curve, 0.5)
	if !settled || from < 35 || from > 48 {
		t.Errorf("from %d, settled %v", from, settled)
	}
	slices.Reverse(curve)
	if from, settled := SettledFrom(curve, 0.5); settled {
		t.Errorf("the reverse is settled from %d", from)
	}
	if from, settled := SettledFrom([]float64{9, 4, 5, 5, 5, 5}, 1); from != 1 || !settled {
		t.Errorf("by hand: from %d, settled %v", from, settled)
	}
}
