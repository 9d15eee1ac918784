package stats

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Shows the paired interval by hand: differences 1, 2, 3 have mean 2 and
// deviation 1, and t with 2 degrees of freedom has the 97.5 % point 4.302653
// (statistical tables, memory).
func TestPairedMean(t *testing.T) {
	i := must(PairedMean([]float64{11, 22, 33}, []float64{10, 20, 30}, 0.95))
	near(t, "estimate", i.Estimate, 2, 1e-12)
	near(t, "half-width", i.HalfWidth(), 4.302653/math.Sqrt(3), 1e-6)
	q := must(PairedQuantile([]float64{11, 22, 33}, []float64{10, 20, 30}, 0.5, 0.5))
	near(t, "median of the differences", q.Estimate, 2, 1e-12)
}

// Shows that what both plans have in common does not lengthen the interval, and
// how much is saved: var(a) + var(b) = 2 + 2·variance of the common part, against
// 2 with pairing.
func TestVarianceRatio(t *testing.T) {
	r := newSequence(2)
	a, b := make([]float64, 20_000), make([]float64, 20_000)
	for i := range a {
		common := 3 * normal(r)
		a[i], b[i] = common+normal(r), common+normal(r)+1
	}
	ratio := must(VarianceRatio(a, b))
	near(t, "ratio", ratio, 10, 0.5)
}

// Shows that a quantity common to both plans falls out of the difference.
func TestCommonPartFallsOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := rapid.Float64Range(-10, 10)
		n := rapid.IntRange(2, 30).Draw(t, "n")
		a := rapid.SliceOfN(value, n, n).Draw(t, "a")
		b := rapid.SliceOfN(value, n, n).Draw(t, "b")
		plain := must(PairedMean(a, b, 0.9))
		common := rapid.SliceOfN(rapid.Float64Range(-1e3, 1e3), n, n).Draw(t, "common")
		for i := range common {
			a[i] += common[i]
			b[i] += common[i]
		}
		got := must(PairedMean(a, b, 0.9))
		if math.Abs(got.Estimate-plain.Estimate) > 1e-9 || math.Abs(got.HalfWidth()-plain.HalfWidth()) > 1e-9 {
			t.Fatalf("%+v with a common part, %+v without", got, plain)
		}
	})
}

// Shows that pairs of unequal number, and too few of them, are errors, and
// Bonferroni's level.
func TestPairedRefusals(t *testing.T) {
	one, two := []float64{1}, []float64{1, 2}
	for name, ask := range map[string]func() error{
		"mean":     func() error { _, err := PairedMean(one, two, 0.9); return err },
		"quantile": func() error { _, err := PairedQuantile(one, two, 0.5, 0.9); return err },
		"ratio":    func() error { _, err := VarianceRatio(one, two); return err },
		"one pair": func() error { _, err := VarianceRatio(one, one); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
	near(t, "level of each of 5", Simultaneous(0.95, 5), 0.99, 1e-12)
}
