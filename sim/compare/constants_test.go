package compare

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// Shows both constants against the table of checks.md ("Engine": ranking
// constants, P* = 0.95, n0 = 20), to the digits given there.
func TestConstants(t *testing.T) {
	for k, want := range map[int]float64{2: 2.452, 3: 2.937, 5: 3.385, 10: 3.875} {
		if got := RinottConstant(k, 20, 0.95); math.Abs(got-want) > 0.0006 {
			t.Errorf("Rinott, %d options: %.4f, want %v", k, got, want)
		}
	}
	for k, want := range map[int]float64{2: 5.211, 5: 9.015, 10: 11.511} {
		if got := KimNelsonConstant(k, 20, 0.95); math.Abs(got-want) > 0.0006 {
			t.Errorf("Kim and Nelson, %d options: %.4f, want %v", k, got, want)
		}
	}
}

// Shows the ends of Rinott's equation (derived). With ever more first replications
// the spread is known, and for two options h goes to √2 times the normal quantile.
// With two of them x and y are squares of standard normal variables, 1/√(1/x + 1/y)
// is distributed as |z|/2 of another one, the event is that 2Z/|z|, which is twice
// a Cauchy variable, is at most h, and so h = 2·tan(π(P* − ½)).
func TestRinottConstantEnds(t *testing.T) {
	for _, p := range []float64{0.75, 0.9, 0.95, 0.99} {
		want := math.Sqrt2 * distuv.UnitNormal.Quantile(p)
		if got := RinottConstant(2, 4000, p); math.Abs(got/want-1) > 1e-3 {
			t.Errorf("spread known, %v: %v, want %v", p, got, want)
		}
		want = 2 * math.Tan(math.Pi*(p-0.5))
		if got := RinottConstant(2, 2, p); math.Abs(got/want-1) > 1e-3 {
			t.Errorf("two replications, %v: %v, want %v", p, got, want)
		}
	}
}

// Shows that more options, more confidence or fewer first replications ask for
// more.
func TestConstantsGrow(t *testing.T) {
	for name, constant := range map[string]func(k, first int, confidence float64) float64{
		"Rinott": RinottConstant, "Kim and Nelson": KimNelsonConstant,
	} {
		middle := constant(4, 15, 0.9)
		for _, more := range []float64{constant(5, 15, 0.9), constant(4, 14, 0.9), constant(4, 15, 0.91)} {
			if more <= middle {
				t.Errorf("%s: %v is not above %v", name, more, middle)
			}
		}
	}
}

func BenchmarkRinottConstant(b *testing.B) {
	for b.Loop() {
		RinottConstant(5, 20, 0.95)
	}
}
