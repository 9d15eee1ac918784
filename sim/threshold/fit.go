package threshold

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/diff/fd"
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
// density. Its error is [ErrOneSided] where no curve can be told.
func Fit(units [][]Trial) (*Curve, error) {
	p, failed, n, err := observe(units)
	if err != nil {
		return nil, err
	}
	problem := optimize.Problem{Func: p.minus, Grad: func(grad, x []float64) { p.gradient(grad, x) }}
	best, err := optimize.Minimize(problem, []float64{0, math.Log(usualSpread), usualLogit}, near(), &optimize.BFGS{})
	if best == nil {
		return nil, fmt.Errorf("threshold: %w", err)
	}
	c := curveAt(p.centre, best.X)
	c.at, c.centre, c.Units, c.Trials, c.Failed = best.X, p.centre, len(units), n, failed
	if err := c.cov.inverse(p, best.X); err != nil {
		return nil, fmt.Errorf("threshold: the estimate is no maximum: %w", err)
	}
	return c, nil
}

// observe prepares trials for a fit. They fail if all went one way.
func observe(units [][]Trial) (p posterior, failed, n int, err error) {
	p.units = make([][]observation, len(units))
	sum := 0.0
	for i, unit := range units {
		for _, t := range unit {
			if !(t.Load > 0) || math.IsInf(t.Load, 0) {
				return p, 0, 0, fmt.Errorf("threshold: a load of %g", t.Load)
			}
			o := observation{math.Log(t.Load), -1}
			if t.Failed {
				failed++
				o.sign = 1
			}
			n++
			sum += o.load
			p.units[i] = append(p.units[i], o)
		}
	}
	if failed == 0 || failed == n {
		return p, 0, 0, ErrOneSided
	}
	p.centre = sum / float64(n)
	return p, failed, n, nil
}

// near ends a search where the density no longer tells places apart. Each has its own, for
// it remembers where the search has been, and several go on side by side.
func near() *optimize.Settings {
	return &optimize.Settings{GradientThreshold: 1e-3, Converger: &optimize.FunctionConverge{Absolute: 1e-7, Iterations: 3}}
}

// parameters are the mean less the centre of the loads, the logarithm of the
// spread, and the logit of the part of its variance that stays with the unit.
const parameters = 3

// curveAt returns the curve of some parameters.
func curveAt(centre float64, x []float64) *Curve {
	spread, part := math.Exp(x[1]), 1/(1+math.Exp(-x[2]))
	return &Curve{Mean: centre + x[0], Between: spread * math.Sqrt(part), Within: spread * math.Sqrt(1-part)}
}

// covariance is that of the parameters about their estimate.
type covariance struct{ mat.SymDense }

// inverse sets the covariance to the inverse of the matrix of second derivatives. Where
// thresholds are sharper than the loads tried tell, there may be no curvature in some
// direction of spread and part: of that no more is known than was believed before.
func (c *covariance) inverse(p posterior, x []float64) error {
	jacobian := mat.NewDense(parameters, parameters, nil)
	fd.Jacobian(jacobian, func(y, x []float64) { p.gradient(y, x) }, x, &fd.JacobianSettings{Formula: fd.Central})
	hessian := mat.NewSymDense(parameters, nil)
	for i := range parameters {
		for k := range i + 1 {
			hessian.SetSym(i, k, (jacobian.At(i, k)+jacobian.At(k, i))/2)
		}
	}
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
	c.SymDense = *mat.NewSymDense(parameters, nil)
	for i, curvature := range eigen.Values(nil) {
		c.SymRankOne(&c.SymDense, 1/max(curvature, 1/(spreadDoubt*spreadDoubt)), directions.ColView(i))
	}
	return nil
}
