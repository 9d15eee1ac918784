package random

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// tied draws n times from a copula and returns the numbers of each quantity.
func tied(c *Copula, dims, n int) [][]float64 {
	r := Key{Seed: 12}.Stream("copula")
	all := make([][]float64, dims)
	for range n {
		us := make([]float64, dims)
		for i := range us {
			us[i] = unit(r)
		}
		for i, u := range c.Apply(us) {
			all[i] = append(all[i], u)
		}
	}
	return all
}

// ranks returns the place of each number in the order of all.
func ranks(xs []float64) []float64 {
	order := make([]int, len(xs))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Compare(xs[a], xs[b]) })
	places := make([]float64, len(xs))
	for place, i := range order {
		places[i] = float64(place)
	}
	return places
}

// Shows that the rank correlations come out as asked for, within some four
// standard errors, each about (1 − ρ²)/√n, and that each number is still uniform: the
// distance of its distribution (Kolmogorov) is below its 99.9 % point, 1.95/√n
// (statistical tables, memory).
func TestCopula(t *testing.T) {
	const n = 40_000
	want := [][]float64{{1, 0.7, -0.3}, {0.7, 1, 0.1}, {-0.3, 0.1, 1}}
	c, err := NewCopula(want)
	if err != nil {
		t.Fatal(err)
	}
	all := tied(c, 3, n)
	for i := range want {
		for j := range i {
			got := stat.Correlation(ranks(all[i]), ranks(all[j]), nil)
			if math.Abs(got-want[i][j]) > 4.5*(1-want[i][j]*want[i][j])/math.Sqrt(n) {
				t.Errorf("quantities %d and %d: %v, want %v", i, j, got, want[i][j])
			}
		}
		sorted := slices.Sorted(slices.Values(all[i]))
		var distance float64
		for k, u := range sorted {
			distance = max(distance, math.Abs(u-(float64(k)+0.5)/n))
		}
		if distance > 1.95/math.Sqrt(n) {
			t.Errorf("quantity %d is not uniform, distance %v", i, distance)
		}
	}
}

// Shows, for any correlation, what holds of each draw: numbers stay within the
// unit interval even at its ends, the first is untouched, without correlation all
// are, and a number grows with its own.
func TestCopulaApply(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rho := rapid.Float64Range(-0.99, 0.99).Draw(t, "correlation")
		end := rapid.SampledFrom([]float64{0x1p-53, 0.5, 1 - 0x1p-53})
		inside := rapid.Float64Range(0.001, 0.999)
		us := []float64{rapid.OneOf(end, inside).Draw(t, "first"), rapid.OneOf(end, inside).Draw(t, "second")}
		c, err := NewCopula([][]float64{{1, rho}, {rho, 1}})
		if err != nil {
			t.Fatal(err)
		}
		got := c.Apply(us)
		if got[0] != us[0] || !(got[1] > 0 && got[1] < 1) {
			t.Fatalf("%v from %v", got, us)
		}
		if more := c.Apply([]float64{us[0], (us[1] + 1) / 2}); more[1] < got[1] {
			t.Fatalf("%v from %v, %v from a larger number", got, us, more)
		}
		free, err := NewCopula([][]float64{{1, 0}, {0, 1}})
		if err != nil {
			t.Fatal(err)
		}
		if same := free.Apply(us); math.Abs(same[1]-us[1]) > 1e-12 {
			t.Fatalf("%v from %v without correlation", same, us)
		}
	})
}

// Shows that numbers at the ends of the unit interval, when many that go together
// meet there, stay within it.
func TestCopulaAtTheEnds(t *testing.T) {
	const dims = 40
	rank := make([][]float64, dims)
	for i := range rank {
		rank[i] = slices.Repeat([]float64{0.5}, dims)
		rank[i][i] = 1
	}
	c, err := NewCopula(rank)
	if err != nil {
		t.Fatal(err)
	}
	for _, end := range []float64{0x1p-53, 1 - 0x1p-53} {
		for i, u := range c.Apply(slices.Repeat([]float64{end}, dims)) {
			if !(u > 0 && u < 1) {
				t.Errorf("quantity %d: %v from %v", i, u, end)
			}
		}
	}
}

// Shows which correlations are refused.
func TestCopulaErrors(t *testing.T) {
	for _, tc := range []struct {
		rank [][]float64
		says string
	}{
		{nil, "no correlations"},
		{[][]float64{{1, 0}}, "row 0 has 2 correlations"},
		{[][]float64{{0.5}}, "with itself is 0.5"},
		{[][]float64{{1, 1}, {1, 1}}, "not between -1 and 1"},
		{[][]float64{{1, math.NaN()}, {0, 1}}, "NaN"},
		{[][]float64{{1, 0.2}, {0.3, 1}}, "two correlations"},
		{[][]float64{{1, 0.9, 0.9}, {0.9, 1, -0.9}, {0.9, -0.9, 1}}, "contradict"},
	} {
		if _, err := NewCopula(tc.rank); err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%v: error %v, want %q", tc.rank, err, tc.says)
		}
	}
}
