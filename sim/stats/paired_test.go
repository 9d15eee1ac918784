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

// Shows that pairs of unequal number, and too few of them, are errors.
func TestPairedRefusals(t *testing.T) {
	one, two := []float64{1}, []float64{1, 2}
	for name, ask := range map[string]func() error{
		"unequal":  func() error { _, err := PairedMean(one, two, 0.9); return err },
		"one pair": func() error { _, err := PairedMean(one, one, 0.9); return err },
	} {
		if ask() == nil {
			t.Errorf("%s: no error", name)
		}
	}
}
