package threshold

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/optimize"
)

const (
	// A background is looked for where the spread without one is at least so much: trials
	// that fail at any load widen it to several times the usual.
	suspectSpread = 0.06
	// It is believed where it makes the trials exp(evidence) times as likely.
	evidence = 5.0
	// The weak beliefs about it: so many trials of a hundred, give or take a factor of
	// four and a half, which hang together by the unit about as much as not.
	usualBackground, usualTogether, backgroundDoubt = 0.05, 0.0, 1.5
)

// rates are the backgrounds that a unit may have, and rateEnds the ends of what each
// stands for.
var rates, rateEnds = [...]float64{0, 0.03, 0.08, 0.18, 0.33, 0.5, 0.67, 0.82, 0.92, 0.97, 1},
	[...]float64{0, 0.01, 0.05, 0.12, 0.25, 0.42, 0.58, 0.75, 0.88, 0.95, 0.99, 1}

// withBackground is the density of the parameters of a curve with a background, given
// the trials: those of a [posterior], then the logit of the background and the logarithm
// of how many trials' worth of units' own backgrounds are alike.
type withBackground struct{ posterior }

// backgroundAt returns the weights of the rates: those of a beta distribution.
func backgroundAt(x []float64) (weights [len(rates)]float64) {
	mean, sum := 1/(1+math.Exp(-x[parameters])), math.Exp(x[parameters+1])
	below := 0.0
	for i := range rates {
		upTo := 1.0
		if i+1 < len(rates) {
			upTo = mathext.RegIncBeta(mean*sum, (1-mean)*sum, rateEnds[i+1])
		}
		weights[i], below = upTo-below, upTo
	}
	return weights
}

// likelihood returns the logarithm of how likely the trials are.
func (p withBackground) likelihood(x []float64) float64 {
	c := curveAt(p.centre, x[:parameters])
	background := backgroundAt(x)
	spread, sum := c.Spread(), 0.0
	stays, anew := c.Between/spread, c.Within/spread
	for _, unit := range p.units {
		like := 0.0
		for i, node := range p.part.at {
			var at [len(rates)]float64
			for k := range at {
				at[k] = background[k]
			}
			for _, o := range unit {
				deviate, _ := bend((o.load - c.Mean) / spread)
				fails := normal((deviate - stays*node) / anew)
				for k, rate := range rates {
					if keeps := (1 - rate) * (1 - fails); o.sign > 0 {
						at[k] *= 1 - keeps
					} else {
						at[k] *= keeps
					}
				}
			}
			like += p.part.weight[i] * floats.Sum(at[:])
		}
		sum += math.Log(max(like, math.SmallestNonzeroFloat64))
	}
	return sum
}

// minus is minus the logarithm of the density.
func (p withBackground) minus(x []float64) float64 {
	off := func(x, usual, doubt float64) float64 { return (x - usual) * (x - usual) / (2 * doubt * doubt) }
	return -p.likelihood(x) + off(x[1], math.Log(usualSpread), spreadDoubt) + off(x[2], usualLogit, logitDoubt) +
		off(x[3], logit(usualBackground), backgroundDoubt) + off(x[4], usualTogether, backgroundDoubt)
}

func logit(share float64) float64 { return math.Log(share / (1 - share)) }

// fitBackground looks for a background beside a fit without one, and returns nil where the
// trials do not speak for one with so much evidence.
func fitBackground(p posterior, plain *Curve, evidence float64) (*Curve, error) {
	b := withBackground{p}
	from := []float64{plain.at[0], math.Log(usualSpread), usualLogit, logit(usualBackground), usualTogether}
	settings := &optimize.Settings{Converger: &optimize.FunctionConverge{Absolute: 1e-4, Iterations: 60}}
	best, err := optimize.Minimize(optimize.Problem{Func: b.minus}, from, settings, &optimize.NelderMead{SimplexSize: 0.3})
	if best == nil {
		return nil, fmt.Errorf("threshold: %w", err)
	}
	if p.minus(plain.at)-best.F < evidence {
		return nil, nil
	}
	hessian := mat.NewSymDense(len(from), nil)
	fd.Hessian(hessian, b.minus, best.X, &fd.Settings{Step: 1e-3})
	return newCurve(p, best.X, hessian)
}
