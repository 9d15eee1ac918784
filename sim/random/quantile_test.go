package random

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Shows quantiles against the closed forms of each distribution; the points of
// the normal distribution are from statistical tables (memory), those of the
// lognormal are derived from them, and a beta distribution of shape (1, 5), which
// is PERT with the mode at the minimum, has the quantile 1 − (1 − p)^(1/5).
func TestQuantile(t *testing.T) {
	const z95 = 1.6448536269514722
	sigma := math.Sqrt(math.Log(1.16)) // of the logarithm, for a CV of 0.4
	for _, tc := range []struct {
		d       Distribution
		p, want float64
	}{
		{Constant{3}, 0.2, 3},
		{Uniform{2, 8}, 0.25, 3.5},
		{exponential{Exponential{4}}, 1 - math.Exp(-2), 8},
		{Triangular{0, 1, 3}, 1.0 / 3, 1},
		{Triangular{0, 1, 3}, 1.0 / 12, 0.5},
		{Triangular{0, 1, 3}, 5.0 / 6, 2},
		{PERT{0, 0, 1}, 1 - math.Pow(0.5, 5), 0.5},
		{PERT{4, 4, 4}, 0.9, 4},
		{Normal{10, 2}, 0.95, 10 + 2*z95},
		{Normal{10, 2}, 0.5, 10},
		{LognormalMeanCV{10, 0.4}, 0.5, 10 / math.Sqrt(1.16)},
		{LognormalMeanCV{10, 0.4}, 0.95, 10 / math.Sqrt(1.16) * math.Exp(z95*sigma)},
		{Empirical{Values: []float64{1, 2, 6}}, 0.34, 2},
		{Empirical{Values: []float64{0.5, 9}, Weights: []float64{16, 1}}, 0.94, 0.5},
		{Empirical{Values: []float64{0.5, 9}, Weights: []float64{16, 1}}, 0.95, 9},
	} {
		if got := tc.d.Quantile(tc.p); math.Abs(got-tc.want) > 1e-9 {
			t.Errorf("%#v: quantile %v is %v, want %v", tc.d, tc.p, got, tc.want)
		}
	}
}

// Shows, for every distribution, that a draw is the quantile of the uniform
// number that the stream gives.
func TestDrawIsQuantile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := rapid.SampledFrom(allDistributions).Draw(t, "distribution").d
		v := rapid.Uint64().Draw(t, "number")
		draw := d.Draw(rand.New(&fixedSource{value: v}))
		want := d.Quantile((float64(v>>12) + 0.5) / (1 << 52))
		if draw != want {
			t.Fatalf("%#v: draw %v, quantile %v", d, draw, want)
		}
	})
}
