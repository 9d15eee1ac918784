package threshold

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
)

// The derivatives are those of the value, by differences of it, and the weights of
// the nodes are those of a standard normal variable.
func TestGradient(t *testing.T) {
	sum, square := 0.0, 0.0
	for i, w := range usual.weight {
		sum += w
		square += w * usual.at[i] * usual.at[i]
	}
	if math.Abs(sum-1) > 1e-12 || math.Abs(square-1) > 1e-12 {
		t.Fatalf("weights of %g, variance %g", sum, square)
	}
	p := posterior{part: usual, centre: 0.1, units: [][]observation{{{0.05, -1}, {0.1, 1}, {0.15, 1}}, {{0.05, -1}, {0.1, -1}}, {{0.2, 1}}}}
	for _, x := range [][]float64{{0, math.Log(0.05), -0.5}, {0.03, -2, 1}, {-0.02, -4, -2}} {
		got := make([]float64, parameters)
		p.gradient(got, x)
		want := fd.Gradient(nil, p.minus, x, &fd.Settings{Formula: fd.Central})
		for i := range got {
			if math.Abs(got[i]-want[i]) > 1e-6*(1+math.Abs(want[i])) {
				t.Errorf("at %v: derivative %d is %g, by differences %g", x, i, got[i], want[i])
			}
		}
	}
}
