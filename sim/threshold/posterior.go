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
	part           *nodes // of the deviate that stays with a unit
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
// is integrated over by its nodes.
func (p posterior) gradient(grad, x []float64) float64 {
	c := curveAt(p.centre, x)
	a, b := (x[1]-math.Log(usualSpread))/spreadDoubt, (x[2]-usualLogit)/logitDoubt
	value := (a*a + b*b) / 2
	// By the mean, by the logarithms of the spread and of what is new, and by what stays.
	byMean, bySpread, byNew, byStays := 0.0, 0.0, 0.0, 0.0
	l := p.likelihoods(c)
	for _, unit := range p.units {
		l.of(unit, c.Mean)
		sum, m, w, r, s := 0.0, 0.0, 0.0, 0.0, 0.0
		for i := range l.at {
			n := &l.at[i]
			like := math.Exp(n.like - l.most)
			sum += like
			m += like * n.mean
			w += like * n.wide
			r += like * n.renew
			s += like * n.stay
		}
		value -= l.most + math.Log(sum)
		byMean -= m / sum
		bySpread -= w / sum
		byNew -= r / sum
		byStays -= s / sum
	}
	part := l.stays * l.stays
	grad[0] = byMean
	grad[1] = bySpread + a/spreadDoubt
	grad[2] = byStays*l.stays*(1-part)/2 - byNew*part/2 + b/logitDoubt
	return value
}

// likelihoods are how likely the trials of a unit are at each node of its part, of a
// deviate of which so much stays and so much is new in a trial.
type likelihoods struct {
	part                *nodes
	spread, stays, anew float64
	at                  []atNode
	most                float64 // of them, as a logarithm
	trials              []onCurve
}

// atNode is how likely the trials of a unit are at a node, as a logarithm, and the
// derivatives of that.
type atNode struct{ like, mean, wide, renew, stay float64 }

// onCurve is a trial so many spreads above the middle, with its deviate and by how much
// that rises there, in parts of what is new.
type onCurve struct{ sign, u, deviate, rise float64 }

func (p posterior) likelihoods(c *Curve) *likelihoods {
	spread := c.Spread()
	return &likelihoods{part: p.part, spread: spread, stays: c.Between / spread, anew: c.Within / spread, at: make([]atNode, len(p.part.at))}
}

// nothing is a logarithm of a likelihood, below the most, that adds nothing to it.
const nothing = -60

// of reckons those of a unit under a curve. How likely trials are falls to either side of the
// node at which they are likeliest, so that those far from there need not be looked at.
func (l *likelihoods) of(unit []observation, mean float64) {
	l.trials = l.trials[:0]
	turn := 0.0 // about where the unit's part lies by its trials
	for _, o := range unit {
		u := (o.load - mean) / l.spread
		deviate, rise := bend(u)
		l.trials = append(l.trials, onCurve{o.sign, u, deviate, rise / l.anew})
		turn += deviate
	}
	turn /= float64(len(unit)) * l.stays
	from, _ := slices.BinarySearch(l.part.at, turn)
	for i := range l.at {
		l.at[i] = atNode{like: math.Inf(-1)}
	}
	l.most = math.Inf(-1)
	for i := from; i < len(l.at) && l.reckon(i); i++ {
	}
	for i := from - 1; i >= 0 && l.reckon(i); i-- {
	}
}

// reckon reckons those at a node, and reports whether they add anything.
func (l *likelihoods) reckon(i int) bool {
	node, n := l.part.at[i], atNode{like: l.part.ln[i]}
	for _, t := range l.trials {
		z := t.sign * (t.deviate - l.stays*node) / l.anew
		ln, slope := lnNormal(z)
		n.like += ln
		if n.like < l.most+nothing {
			return false
		}
		n.mean -= t.sign * slope * t.rise / l.spread
		n.wide -= t.sign * slope * t.rise * t.u
		n.renew -= slope * z
		n.stay -= t.sign * slope * node / l.anew
	}
	l.most = max(l.most, n.like)
	l.at[i] = n
	return true
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
	density := math.Exp(-z*z/2) / math.Sqrt(2*math.Pi)
	if z > farAbove {
		return 0, density
	}
	below := normal(z)
	return math.Log(below), density / below
}

// farBelow is a place below which the density over −z stands for the distribution
// function: they differ there by a thousandth.
const farBelow = -30

// farAbove is a place above which the distribution function is 1 to the last bit.
const farAbove = 8.5
