package threshold

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/diff/fd"
)

// The derivatives are those of the value, by differences of it, and the weights of
// the nodes, however many there are, are those of a standard normal variable.
func TestGradient(t *testing.T) {
	for part := usual; part != nil; part = part.finer {
		sum, square := 0.0, 0.0
		for i, w := range part.weight {
			sum += w
			square += w * part.at[i] * part.at[i]
		}
		if math.Abs(sum-1) > 1e-5 || math.Abs(square-1) > 2e-4 { // beyond 4.5 there are none
			t.Fatalf("%d weights of %g, variance %g", len(part.at), sum, square)
		}
		p := posterior{part: part, centre: 0.1, units: [][]observation{{{0.05, -1}, {0.1, 1}, {0.15, 1}}, {{0.05, -1}, {0.1, -1}}, {{0.2, 1}}}}
		for _, x := range [][]float64{{0, math.Log(0.05), -0.5}, {0.03, -2, 1}, {-0.02, -4, -2}, {0.01, -3, 3}} {
			got := make([]float64, parameters)
			p.gradient(got, x)
			want := fd.Gradient(nil, p.minus, x, &fd.Settings{Formula: fd.Central})
			for i := range got {
				if math.Abs(got[i]-want[i]) > 1e-6*(1+math.Abs(want[i])) {
					t.Errorf("%d nodes, at %v: derivative %d is %g, by differences %g", len(part.at), x, i, got[i], want[i])
				}
			}
		}
	}
}

// How likely the trials of units are at a curve, by the nodes that are near enough for it,
// is what three thousand nodes say, whose sum leaves nothing out. A unit fails from some load
// on, of those of a ramp about the curve, or now and then, as where little stays with it.
func TestNodesAreNearEnough(t *testing.T) {
	const spread, years, reference, near = 0.04, 8, 3001, 0.04
	for _, ratio := range []float64{0.3, 1, 1.5, 2, 4, 6, 8, 20} {
		within := spread / math.Hypot(1, ratio)
		curve := &Curve{Between: within * ratio, Within: within}
		part := usual
		for part.tooFewFor(curve) {
			part = part.finer
		}
		exact := even(reference, 0, nil)
		for from := range years {
			for odd := range years {
				var unit []observation
				for year := range years {
					sign := -1.0
					if year >= from {
						sign = 1
					}
					if ratio <= 1 && year == odd {
						sign = -sign
					}
					unit = append(unit, observation{spread * (-3.2 + 3*float64(year)/(years-1)), sign})
				}
				got := posterior{part: part}.lnLikelihood(unit, curve)
				want := 0.0
				for i, node := range exact.at {
					product := exact.weight[i]
					for _, o := range unit {
						deviate, _ := bend(o.load / spread)
						product *= normal(o.sign * (deviate*spread - curve.Between*node) / within)
					}
					want += product
				}
				if off := math.Abs(got - math.Log(want)); off > near {
					t.Errorf("%d nodes where %g times as much stays: off by %.4f for a unit that fails from year %d on", len(part.at), ratio, off, from)
				}
			}
		}
	}
}

// lnLikelihood is how likely the trials of a unit are under a curve, as a logarithm.
func (p posterior) lnLikelihood(unit []observation, c *Curve) float64 {
	l := p.likelihoods(c)
	l.of(unit, c.Mean)
	sum := 0.0
	for _, at := range l.at {
		sum += math.Exp(at.like - l.most)
	}
	return l.most + math.Log(sum)
}
