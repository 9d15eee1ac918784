package threshold

import "math"

// posterior is the density of the parameters, given the trials.
type posterior struct {
	units  [][]observation
	centre float64
}

// observation is a trial: the logarithm of its load, and 1 if it failed, −1 if not.
type observation struct{ load, sign float64 }

// minus is minus the logarithm of the density.
func (p posterior) minus(x []float64) float64 { return p.gradient(make([]float64, parameters), x) }

// gradient sets the derivatives of minus and returns its value. The part of a unit
// is integrated over by Gauss's and Hermite's nodes.
func (p posterior) gradient(grad, x []float64) float64 {
	c := curveAt(p.centre, x)
	a, b := (x[1]-math.Log(usualSpread))/spreadDoubt, (x[2]-usualLogit)/logitDoubt
	value := (a*a + b*b) / 2
	byMean, byBetween, byWithin := 0.0, 0.0, 0.0
	for _, unit := range p.units {
		like, mean, between, within := 0.0, 0.0, 0.0, 0.0
		for i, node := range nodes {
			l, m, w := weights[i], 0.0, 0.0
			for _, o := range unit {
				z := o.sign * (o.load - c.Mean - c.Between*node) / c.Within
				l *= normal(z)
				slope := hazard(z) / c.Within // of ln normal(z), by −o.sign times the mean
				m -= o.sign * slope
				w -= z * slope
			}
			like += l
			mean += l * m
			between += l * m * node
			within += l * w
		}
		like = max(like, math.SmallestNonzeroFloat64)
		value -= math.Log(like)
		byMean -= mean / like
		byBetween -= between / like
		byWithin -= within / like
	}
	part := c.Between * c.Between / (c.Between*c.Between + c.Within*c.Within)
	grad[0] = byMean
	grad[1] = byBetween*c.Between + byWithin*c.Within + a/spreadDoubt
	grad[2] = byBetween*c.Between*(1-part)/2 - byWithin*c.Within*part/2 + b/logitDoubt
	return value
}

// normal is the standard normal distribution function.
func normal(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// hazard is the standard normal density over the distribution function. Far below
// nothing it is −z, to which the ratio tends.
func hazard(z float64) float64 {
	if z < -30 {
		return -z
	}
	return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / normal(z)
}
