package stats

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
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

// Shows that the warm-up found removes the trace of the start: over 400 series
// that start 30 deviations off and forget with 0.9 a step, the mean of what is
// kept is free of bias to within sampling error, while that of the whole is off by
// 30/(1 − 0.9)/n = 0.3; that some 50 observations go, where the start has faded to
// 30·0.9⁵⁰ = 0.15; and that from a steady start few go. With noise that remembers
// some series look unsettled by chance; most must not.
func TestWarmUpRemovesBias(t *testing.T) {
	r := newSequence(4)
	const series, n = 400, 1000
	var whole, kept, cuts, needless []float64
	for range series {
		xs := decaying(r, n, 30, 0.9)
		whole = append(whole, stat.Mean(xs, nil))
		if cut, settled := settles(t, xs); settled {
			kept = append(kept, stat.Mean(xs[cut:], nil))
			cuts = append(cuts, float64(cut))
		}
		if cut, settled := settles(t, decaying(r, n, 0, 0)); settled {
			needless = append(needless, float64(cut))
		}
	}
	near(t, "bias of the whole", stat.Mean(whole, nil), 0.3, 0.1)
	near(t, "bias of what is kept", stat.Mean(kept, nil), 0, 4*stat.StdDev(kept, nil)/math.Sqrt(series))
	near(t, "median cut", Quantile(cuts, 0.5), 45, 25)
	near(t, "median cut without a start", Quantile(needless, 0.5), 0, 50)
	if len(kept) < series*8/10 || len(needless) < series*8/10 {
		t.Errorf("of %d series %d and %d are called settled", series, len(kept), len(needless))
	}
	t.Logf("bias %.3f, of the whole %.3f; cut %v; settled %d and %d of %d",
		stat.Mean(kept, nil), stat.Mean(whole, nil), Quantile(cuts, 0.5), len(kept), len(needless), series)
}

func settles(t *testing.T, xs []float64) (cut int, settled bool) {
	t.Helper()
	cut, settled, err := WarmUp(xs)
	if err != nil || cut%5 != 0 || cut > len(xs)/2 {
		t.Fatalf("cut %d, settled %v, error %v", cut, settled, err)
	}
	return cut, settled
}

// Shows the cut worked out by hand: a step after 20 observations, noise around it;
// and that a series which rises to its end has not settled.
func TestWarmUpByHand(t *testing.T) {
	step := make([]float64, 103)
	for i := range step {
		step[i] = float64(i / 5 % 2)
		if i < 20 {
			step[i] += 10
		}
	}
	if cut, settled, err := WarmUp(step); cut != 20 || !settled || err != nil {
		t.Errorf("cut %d, settled %v, error %v", cut, settled, err)
	}
	for _, n := range []int{60, 100, 333} {
		rising := make([]float64, n)
		for i := range rising {
			rising[i] = float64(i)
		}
		if cut, settled, err := WarmUp(rising); settled || cut != n/5/2*5 || err != nil {
			t.Errorf("rising for %d: cut %d, settled %v, error %v", n, cut, settled, err)
		}
	}
	if _, _, err := WarmUp(step[:59]); err == nil {
		t.Error("no error with 59 observations")
	}
	if cut, settled, err := WarmUp(make([]float64, 60)); cut != 0 || !settled || err != nil {
		t.Errorf("constant: cut %d, settled %v, error %v", cut, settled, err)
	}
}

// Shows the moving average by hand: instants averaged over two replications, 2, 4,
// 6, 8, 16, then over one neighbour on either side, at the start over none.
func TestWelch(t *testing.T) {
	curve := must(Welch([][]float64{{1, 2, 3, 4, 5}, {3, 6, 9, 12, 27}}, 1))
	for i, want := range []float64{2, 4, 6, 10} {
		near(t, "curve", curve[i], want, 1e-12)
	}
	if len(curve) != 4 {
		t.Errorf("%d points", len(curve))
	}
	for name, ask := range map[string]func() ([]float64, error){
		"nothing":         func() ([]float64, error) { return Welch(nil, 1) },
		"negative window": func() ([]float64, error) { return Welch([][]float64{{1, 2}}, -1) },
		"wide window":     func() ([]float64, error) { return Welch([][]float64{{1, 2}}, 2) },
		"unequal length":  func() ([]float64, error) { return Welch([][]float64{{1, 2}, {1}}, 0) },
	} {
		if _, err := ask(); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
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
	curve := must(Welch(replications, 5))
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
