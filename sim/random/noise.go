package random

import (
	"math"
	"math/rand/v2"
)

// AR1Lognormal describes a factor of mean one that varies from step to step and
// remembers: lognormal at every step, with CV its coefficient of variation and
// Correlation that between one step and the next, 0 or more and below 1.
//
// The logarithm is a first-order autoregression with correlation
// ln(1 + Correlation·CV²)/ln(1 + CV²), which gives the factor itself the
// correlation asked for (derived from the covariance of two lognormals,
// exp(cov) − 1).
type AR1Lognormal struct {
	CV          float64
	Correlation float64
}

// Start returns a sequence in its steady state, which draws from r. The
// parameters must be valid.
func (d AR1Lognormal) Start(r *rand.Rand) *Noise {
	variance := logVariance(d.CV)
	n := &Noise{r: r, spread: math.Sqrt(variance), shift: variance / 2}
	if variance > 0 {
		n.memory = math.Log1p(d.Correlation*d.CV*d.CV) / variance
	}
	n.fresh = math.Sqrt(1 - n.memory*n.memory)
	n.z = standardNormal(r)
	return n
}

// Noise is a running sequence of [AR1Lognormal].
type Noise struct {
	r      *rand.Rand
	spread float64 // standard deviation of the logarithm
	shift  float64 // half its variance, so that the mean is one
	memory float64 // correlation of the logarithm between steps
	fresh  float64 // share of new noise, so that the variance stays one
	z      float64 // standardised logarithm of the next value
}

// Next returns the factor of this step and moves to the next.
func (n *Noise) Next() float64 {
	x := math.Exp(n.spread*n.z - n.shift)
	n.z = n.memory*n.z + n.fresh*standardNormal(n.r)
	return x
}
