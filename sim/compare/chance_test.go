package compare

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"
)

// Shows the chances by hand. In three replications the lead of the first option
// over the second is 1, 2, 3, so t = 2/(1/√3) = √12; with 2 degrees of freedom the
// tail of t is ½(1 − t/√(2 + t²)) = ½(1 − √(12/14)). The third is 10 behind the
// second always, and 11, 12, 13 behind the first, t = 12√3.
func TestChanceByHand(t *testing.T) {
	values := [][]float64{{5, 7, 6}, {6, 9, 9}, {16, 19, 19}}
	tail := func(t float64) float64 { return (1 - t/math.Sqrt(2+t*t)) / 2 }
	first, second := tail(math.Sqrt(12)), tail(12*math.Sqrt(3))

	best, chance, err := Best(values, Lowest)
	if want := 1 - first - second; err != nil || best != 0 || math.Abs(chance-want) > 1e-12 {
		t.Errorf("best %d with %v, want 0 with %v; error %v", best, chance, want, err)
	}
	best, chance, err = Best(values, Highest)
	if want := 1 - second; err != nil || best != 2 || math.Abs(chance-want) > 1e-12 {
		t.Errorf("highest: best %d with %v, want 2 with %v; error %v", best, chance, want, err)
	}
}

// Shows what must hold of any values: the best has the best mean, of equals it is
// the first; of two options its chance is at least one half; luck common to all
// options changes nothing; and turning all signs and the goal neither.
func TestChanceProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, n := rapid.IntRange(2, 5).Draw(t, "options"), rapid.IntRange(2, 12).Draw(t, "replications")
		// Whole numbers, so that equal means are frequent and sums exact.
		whole := rapid.Map(rapid.IntRange(-4, 4), func(i int) float64 { return float64(i) })
		values := make([][]float64, k)
		for i := range values {
			values[i] = rapid.SliceOfN(whole, n, n).Draw(t, "values")
		}
		type answer struct {
			best int
			sure float64
			err  error
		}
		ask := func(values [][]float64, goal Goal) (a answer) {
			a.best, a.sure, a.err = Best(values, goal)
			return a
		}
		got := ask(values, Lowest)
		if got.err != nil || got.sure < 0 || got.sure > 1 {
			t.Fatalf("%+v", got)
		}
		for i, xs := range values {
			if m, least := stat.Mean(xs, nil), stat.Mean(values[got.best], nil); m < least || m == least && i < got.best {
				t.Fatalf("best %d with mean %v, %d has %v", got.best, least, i, m)
			}
		}
		if k == 2 && got.sure < 0.5 {
			t.Fatalf("two options: %+v", got)
		}
		luck := rapid.SliceOfN(whole, n, n).Draw(t, "luck")
		lucky, turned := make([][]float64, k), make([][]float64, k)
		for i, xs := range values {
			for j, x := range xs {
				lucky[i] = append(lucky[i], x+luck[j])
				turned[i] = append(turned[i], -x)
			}
		}
		if again := ask(turned, Highest); !reflect.DeepEqual(again, got) {
			t.Fatalf("%+v, signs turned %+v", got, again)
		}
		again := ask(lucky, Lowest)
		if math.Abs(again.sure-got.sure) > 1e-9 {
			t.Fatalf("%+v, with common luck %+v", got, again)
		}
	})
}

// Shows that what can't be compared is refused.
func TestChanceErrors(t *testing.T) {
	for says, values := range map[string][][]float64{
		"1 options":                   {{1, 2}},
		"option 0 has 1":              {{1}, {1}},
		"option 1 has 3 replications": {{1, 2}, {1, 2, 3}},
	} {
		_, _, err := Best(values, Lowest)
		if err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("error %v, want %q", err, says)
		}
	}
}
