package threshold

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"
)

// Trial is one load on a unit.
type Trial struct {
	Load   float64 // positive
	Failed bool
}

// The weak beliefs that keep the estimate finite where trials say little, as when
// all of one side of a load failed and none of the other: the spread is about a
// twentieth of the threshold, give or take a factor of four and a half, and any
// part of it may stay with the unit. Fifty trials outweigh them.
const (
	usualSpread, spreadDoubt = 0.05, 1.5
	usualLogit, logitDoubt   = -0.5, 1.5
)

// ErrOneSided says that all trials failed or none did: nothing is known of what
// lies beyond the loads tried.
var ErrOneSided = errors.New("threshold: all trials went one way")

// Fit estimates the curve from the trials of each unit, by the largest posterior
// density. Where they speak clearly for trials that fail whatever the load, it has a
// background. Its error is [ErrOneSided] where no curve can be told.
func Fit(units [][]Trial) (*Curve, error) { return fit(units, suspectSpread, evidence) }

// FitExpecting is Fit where a background is expected, as where it was seen with a thing
// that differs in nothing from which trials fail whatever the load: it is looked for
// however steep the curve is, and believed as soon as it makes the trials likelier.
func FitExpecting(units [][]Trial) (*Curve, error) { return fit(units, 0, 0) }

// fit estimates the curve. A background is looked for from a spread on, and believed from
// some evidence on.
func fit(units [][]Trial, suspect, enough float64) (*Curve, error) {
	p, err := observe(units)
	if err != nil {
		return nil, err
	}
	at, err := p.likeliest([]float64{0, math.Log(usualSpread), usualLogit})
	for err == nil && p.part.tooFewFor(curveAt(p.centre, at)) {
		p.part = p.part.finer
		at, err = p.likeliest(at)
	}
	if err != nil {
		return nil, err
	}
	c, err := newCurve(p, at, p.curvature(at))
	if err == nil && c.Spread() >= suspect {
		if with, err := fitBackground(p, c, enough); with != nil || err != nil {
			return with, err
		}
	}
	return c, err
}

// likeliest searches for the parameters of the largest density, from some on.
func (p posterior) likeliest(from []float64) ([]float64, error) {
	problem := optimize.Problem{Func: p.minus, Grad: func(grad, x []float64) { p.gradient(grad, x) }}
	best, err := optimize.Minimize(problem, from, near(), &optimize.BFGS{})
	if best == nil {
		return nil, fmt.Errorf("threshold: %w", err)
	}
	return best.X, nil
}

// newCurve is the curve of an estimate, with the matrix of second derivatives of minus the
// logarithm of the density there.
func newCurve(p posterior, x []float64, hessian *mat.SymDense) (*Curve, error) {
	c := curveAt(p.centre, x)
	c.at, c.centre, c.Units, c.Trials, c.Failed = x, p.centre, len(p.units), p.trials, p.failed
	if err := c.cov.inverse(hessian); err != nil {
		return nil, fmt.Errorf("threshold: the estimate is no maximum: %w", err)
	}
	return c, nil
}

// observe prepares trials for a fit. They fail if all went one way.
func observe(units [][]Trial) (p posterior, err error) {
	p.part = usual
	p.units = make([][]observation, len(units))
	sum := 0.0
	for i, unit := range units {
		for _, t := range unit {
			if !(t.Load > 0) || math.IsInf(t.Load, 0) {
				return p, fmt.Errorf("threshold: a load of %g", t.Load)
			}
			o := observation{math.Log(t.Load), -1}
			if t.Failed {
				p.failed++
				o.sign = 1
			}
			p.trials++
			sum += o.load
			p.units[i] = append(p.units[i], o)
		}
	}
	if p.failed == 0 || p.failed == p.trials {
		return p, ErrOneSided
	}
	p.centre = sum / float64(p.trials)
	return p, nil
}

// near ends a search where the density no longer tells places apart. Each has its own, for
// it remembers where the search has been, and several go on side by side.
func near() *optimize.Settings {
	return &optimize.Settings{GradientThreshold: 1e-3, Converger: &optimize.FunctionConverge{Absolute: 1e-7, Iterations: 3}}
}

// parameters are the mean less the centre of the loads, the logarithm of the
// spread, and the logit of the part of its variance that stays with the unit.
const parameters = 3

// curveAt returns the curve of some parameters, with a background where there are those
// of one.
func curveAt(centre float64, x []float64) *Curve {
	spread, part := math.Exp(x[1]), 1/(1+math.Exp(-x[2]))
	c := &Curve{Mean: centre + x[0], Between: spread * math.Sqrt(part), Within: spread * math.Sqrt(1-part)}
	if len(x) > parameters {
		weights := backgroundAt(x)
		c.Background = floats.Dot(weights[:], rates[:])
	}
	return c
}

// covariance is that of the parameters about their estimate.
type covariance struct{ mat.SymDense }

// inverse sets the covariance to the inverse of the matrix of second derivatives. Where
// thresholds are sharper than the loads tried tell, there may be no curvature in some
// direction of spread and part: of that no more is known than was believed before.
func (c *covariance) inverse(hessian *mat.SymDense) error {
	var factor mat.Cholesky
	if factor.Factorize(hessian) {
		return factor.InverseTo(&c.SymDense)
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(hessian, true) {
		return errors.New("no curvature")
	}
	var directions mat.Dense
	eigen.VectorsTo(&directions)
	c.SymDense = *mat.NewSymDense(hessian.SymmetricDim(), nil)
	for i, curvature := range eigen.Values(nil) {
		c.SymRankOne(&c.SymDense, 1/max(curvature, 1/(spreadDoubt*spreadDoubt)), directions.ColView(i))
	}
	return nil
}
