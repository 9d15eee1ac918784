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
	spread := c.Spread()
	stays, anew := c.Between/spread, c.Within/spread // of a deviate, the parts of a unit and of a trial
	// By the mean, by the logarithms of the spread and of what is new, and by what stays.
	byMean, bySpread, byNew, byStays := 0.0, 0.0, 0.0, 0.0
	var like, mean, wide, renew, stay [numNodes]float64 // of a unit at each node, the first as a logarithm
	for _, unit := range p.units {
		for i := range nodes {
			like[i], mean[i], wide[i], renew[i], stay[i] = lnWeights[i], 0, 0, 0, 0
		}
		for _, o := range unit {
			u := (o.load - c.Mean) / spread
			at, rise := bend(u)
			rise /= anew
			for i, node := range nodes {
				z := o.sign * (at - stays*node) / anew
				ln, slope := lnNormal(z)
				like[i] += ln
				mean[i] -= o.sign * slope * rise / spread
				wide[i] -= o.sign * slope * rise * u
				renew[i] -= slope * z
				stay[i] -= o.sign * slope * node / anew
			}
		}
		most := slices.Max(like[:])
		sum, m, w, r, s := 0.0, 0.0, 0.0, 0.0, 0.0
		for i := range nodes {
			l := math.Exp(like[i] - most)
			sum += l
			m += l * mean[i]
			w += l * wide[i]
			r += l * renew[i]
			s += l * stay[i]
		}
		value -= most + math.Log(sum)
		byMean -= m / sum
		bySpread -= w / sum
		byNew -= r / sum
		byStays -= s / sum
	}
	part := stays * stays
	grad[0] = byMean
	grad[1] = bySpread + a/spreadDoubt
	grad[2] = byStays*stays*(1-part)/2 - byNew*part/2 + b/logitDoubt
	return value
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// lnNormal is the logarithm of the standard normal distribution function, with the
// derivative of that: the density over the distribution function. Far below nothing the
// function is the density over −z, and the ratio −z, to which they tend.
func lnNormal(z float64) (ln, slope float64) {
	if z < farBelow {
		return -z*z/2 - math.Log(-z*math.Sqrt(2*math.Pi)), -z
	}
	below := normal(z)
	return math.Log(below), math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / below
}

// farBelow is a place below which the density over −z stands for the distribution
// function: they differ there by a thousandth.
const farBelow = -30
