package stats

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Shows, for any number, quantile and level, that the ranks hold the quantile
// with the confidence asked for, by summing binomial probabilities, and that
// neither end could be brought in by one.
func TestQuantileRanksHold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 200).Draw(t, "n")
		q := rapid.Float64Range(0.01, 0.99).Draw(t, "q")
		level := rapid.SampledFrom([]float64{0.5, 0.8, 0.9, 0.95, 0.99}).Draw(t, "level")
		low, high, err := QuantileRanks(n, q, level)
		if err != nil || low < 0 || high <= low || high > n+1 {
			t.Fatalf("ranks %d–%d, error %v", low, high, err)
		}
		if got := covered(n, q, low, high); got < level-1e-9 {
			t.Fatalf("ranks %d–%d cover %v", low, high, got)
		}
		if covered(n, q, low+1, high) > level+1e-9 || covered(n, q, low, high-1) > level+1e-9 {
			t.Fatalf("ranks %d–%d could be narrower", low, high)
		}
	})
}

// covered is the chance that at least low and fewer than high of n observations
// are below the q-quantile.
func covered(n int, q float64, low, high int) float64 {
	var sum float64
	for k := low; k < high; k++ {
		a, _ := math.Lgamma(float64(n + 1))
		b, _ := math.Lgamma(float64(k + 1))
		c, _ := math.Lgamma(float64(n - k + 1))
		sum += math.Exp(a - b - c + float64(k)*math.Log(q) + float64(n-k)*math.Log1p(-q))
	}
	return sum
}
