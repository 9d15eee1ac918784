package threshold

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
)

// posterior is the density of the parameters, given the trials.
type posterior struct {
	units          [][]observation
	centre         float64
	trials, failed int
}

// observation is a trial: the logarithm of its load, and 1 if it failed, −1 if not.
type observation struct{ load, sign float64 }

// minus is minus the logarithm of the density.
func (p posterior) minus(x []float64) float64 { return p.gradient(make([]float64, parameters), x) }

// curvature is the matrix of second derivatives of minus.
func (p posterior) curvature(x []float64) *mat.SymDense {
	jacobian := mat.NewDense(parameters, parameters, nil)
	fd.Jacobian(jacobian, func(y, x []float64) { p.gradient(y, x) }, x, &fd.JacobianSettings{Formula: fd.Central})
	out := mat.NewSymDense(parameters, nil)
	for i := range parameters {
		for k := range i + 1 {
			out.SetSym(i, k, (jacobian.At(i, k)+jacobian.At(k, i))/2)
		}
	}
	return out
}

// gradient sets the derivatives of minus and returns its value. The part of a unit
// is integrated over by Gauss's and Hermite's nodes.
func (p posterior) gradient(grad, x []float64) float64 {
	c := curveAt(p.centre, x)
	a, b := (x[1]-math.Log(usualSpread))/spreadDoubt, (x[2]-usualLogit)/logitDoubt
	value := (a*a + b*b) / 2
	byMean, byBetween, byWithin := 0.0, 0.0, 0.0
	var like, mean, within [numNodes]float64 // of a unit at each node, the first as a logarithm
	for _, unit := range p.units {
		for i, node := range nodes {
			like[i], mean[i], within[i] = math.Log(weights[i]), 0, 0
			for _, o := range unit {
				z := o.sign * (o.load - c.Mean - c.Between*node) / c.Within
				like[i] += lnNormal(z)
				slope := hazard(z) / c.Within // of ln normal(z), by −o.sign times the mean
				mean[i] -= o.sign * slope
				within[i] -= z * slope
			}
		}
		most := slices.Max(like[:])
		sum, m, b, w := 0.0, 0.0, 0.0, 0.0
		for i, node := range nodes {
			l := math.Exp(like[i] - most)
			sum += l
			m += l * mean[i]
			b += l * mean[i] * node
			w += l * within[i]
		}
		value -= most + math.Log(sum)
		byMean -= m / sum
		byBetween -= b / sum
		byWithin -= w / sum
	}
	part := c.Between * c.Between / (c.Between*c.Between + c.Within*c.Within)
	grad[0] = byMean
	grad[1] = byBetween*c.Between + byWithin*c.Within + a/spreadDoubt
	grad[2] = byBetween*c.Between*(1-part)/2 - byWithin*c.Within*part/2 + b/logitDoubt
	return value
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// lnNormal is its logarithm. Far below nothing it is that of the density over −z.
func lnNormal(z float64) float64 {
	if z < farBelow {
		return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi))
	}
	return math.Log(normal(z))
}

// farBelow is a place below which the density over −z stands for the distribution
// function: they differ there by a thousandth.
const farBelow = -30

// hazard is the standard normal density over the distribution function. Far below
// nothing it is −z, to which the ratio tends.
func hazard(z float64) float64 {
	if z < farBelow {
		return -z
	}
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / normal(z)
}
