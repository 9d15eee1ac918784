package stats

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
	"pgregory.net/rapid"
)

// Shows that the interval for the place of a crossing holds it about as often as it
// says. In each run a pressure grows by 1 from place to place, from a start that is
// normal with deviation 2, and a place is so where it is above 8 with a normal
// disturbance of deviation 1: at place i in a share of Φ((i − 8)/√5) of the runs.
// 5 % is passed at i = 8 − 1.645·√5 = 4.32, so first at 5. Shifted by a third of a
// place or two, it is passed a little after 5, at 4.99, and at 5.32, so at 6.
func TestRisingSharesHoldTheCrossing(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	const repeats, runs, places, level = 300, 73, 12, 0.9
	r := newSequence(77)
	for _, shift := range []float64{0, 0.67, 1} {
		truth := 0
		for distuv.UnitNormal.CDF((float64(truth)-8-shift)/math.Sqrt(5)) <= 0.05 {
			truth++
		}
		held, width := 0, 0
		for range repeats {
			sample := make([][]bool, runs)
			for i := range sample {
				start := 2 * normal(r)
				for place := range places {
					sample[i] = append(sample[i], float64(place)+start+normal(r) > 8+shift)
				}
			}
			low, high, err := crossing(sample, make([]bool, places), 0.05, level)
			if err != nil {
				t.Fatal(err)
			}
			if low <= truth && truth <= high {
				held++
			}
			width += high - low
		}
		t.Logf("place %d held in %.3f of %d repeats, by %.1f places in the mean", truth, float64(held)/repeats, repeats, float64(width)/repeats)
		if share := float64(held) / repeats; share < 0.87 {
			t.Errorf("place %d held in %.1f %%", truth, 100*share)
		}
		if mean := float64(width) / repeats; mean > 4 {
			t.Errorf("%.1f places wide", mean)
		}
	}
}

// Shows crossings that leave no doubt: in all runs from a place on, in none, from
// the first place on, and where the share falls again.
func TestRisingSharesWithoutDoubt(t *testing.T) {
	for _, c := range []struct {
		name  string
		run   []bool
		falls []bool
		want  int
	}{
		{"from a place on", []bool{false, false, true, true}, make([]bool, 4), 2},
		{"nowhere", []bool{false, false, false}, make([]bool, 3), 3},
		{"from the first on", []bool{true, true}, make([]bool, 2), 0},
		{"relieved", []bool{false, true, false, true}, []bool{false, false, true, false}, 1},
	} {
		runs := make([][]bool, 20)
		for i := range runs {
			runs[i] = c.run
		}
		if low, high, err := crossing(runs, c.falls, 0.05, 0.95); err != nil || low != c.want || high != c.want {
			t.Errorf("%s: %d to %d (%v), want %d", c.name, low, high, err, c.want)
		}
	}
}

// Shows pooling by hand: 3 and 1 meet at 2, and pull 2.5 and 0.5 to 2 with them;
// where values may fall, nothing is pooled.
func TestPool(t *testing.T) {
	for _, c := range []struct {
		values, want []float64
		falls        []bool
	}{
		{[]float64{1, 3, 1, 4}, []float64{1, 2, 2, 4}, make([]bool, 4)},
		{[]float64{3, 1, 2.5, 0.5}, []float64{1.75, 1.75, 1.75, 1.75}, make([]bool, 4)},
		{[]float64{3, 1, 0.5}, []float64{3, 0.75, 0.75}, []bool{false, true, false}},
	} {
		got := append([]float64{}, c.values...)
		pool(got, c.falls)
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%v pooled to %v, want %v", c.values, got, c.want)
		}
	}
}

// Shows that pooling keeps the sum of every stretch and lets values fall only
// where they may.
func TestPoolProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(0, 1), 1, 12).Draw(t, "values")
		falls := rapid.SliceOfN(rapid.Bool(), len(values), len(values)).Draw(t, "falls")
		got := append([]float64{}, values...)
		pool(got, falls)
		before, after := 0.0, 0.0
		for i := range got {
			if i > 0 && !falls[i] && got[i] < got[i-1]-1e-12 {
				t.Fatalf("%v falls to %v", values, got)
			}
			if falls[i] {
				before, after = 0, 0
			}
			before, after = before+values[i], after+got[i]
			if last := i == len(got)-1 || falls[i+1]; last && math.Abs(before-after) > 1e-9 {
				t.Fatalf("%v sums to %g in %v", before, after, got)
			}
		}
	})
}

// Shows that what cannot be reckoned with is an error.
func TestRisingSharesRefuses(t *testing.T) {
	two := [][]bool{{true, false}, {false, false}}
	for name, runs := range map[string][][]bool{"one run": two[:1], "other length": {{true}, {false}}} {
		if _, err := RisingShares(runs, make([]bool, 2), 10); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// crossing returns the first and the last place at which shares may first pass a
// limit, at a level: as a percentile interval of the resampled shares.
func crossing(runs [][]bool, falls []bool, limit, level float64) (low, high int, err error) {
	shares, err := RisingShares(runs, falls, 2000)
	if err != nil {
		return 0, 0, err
	}
	var found []int
	for _, s := range shares[1:] {
		place := slices.IndexFunc(s, func(share float64) bool { return share > limit+1e-9 })
		if place < 0 {
			place = len(s)
		}
		found = append(found, place)
	}
	slices.Sort(found)
	tail := int(math.Floor((1 - level) / 2 * float64(len(found))))
	return found[tail], found[len(found)-1-tail], nil
}
