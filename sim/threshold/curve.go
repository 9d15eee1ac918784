package threshold

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Curve says what share of trials fails at a load.
type Curve struct {
	Mean            float64 // the logarithm of the threshold at the mean of the deviates
	Between, Within float64 // the parts of the spread from unit to unit, and within one
	// Background is the share of trials that fail whatever the load; 0 where none is seen.
	Background float64

	// What it rests on.
	Units, Trials, Failed int

	at     []float64 // the parameters of the estimate, see likelihood
	centre float64
	cov    covariance
}

// Spread is by how much the logarithm of the threshold rises with the deviate at the
// middle: about its standard deviation, over all trials but those that fail whatever the
// load.
func (c *Curve) Spread() float64 { return math.Hypot(c.Between, c.Within) }

// Share returns the share of trials that fail at a load.
func (c *Curve) Share(load float64) float64 {
	return c.above(failing((math.Log(load) - c.Mean) / c.Spread()))
}

// above is the share of trials that fail where a share of those does that load makes fail.
func (c *Curve) above(share float64) float64 { return c.Background + (1-c.Background)*share }

// MeanShare returns the mean share of trials that fail at loads given by their
// logarithms.
func (c *Curve) MeanShare(logs []float64) float64 {
	spread, sum := c.Spread(), 0.0
	for _, load := range logs {
		sum += failing((load - c.Mean) / spread)
	}
	return c.above(sum / float64(len(logs)))
}

// Load returns the load at which a share of trials, between 0 and 1, fails; none where
// more of them fail whatever the load.
func (c *Curve) Load(share float64) float64 {
	if share <= c.Background {
		return 0
	}
	return math.Exp(c.Mean + c.Spread()*unbend(distuv.UnitNormal.Quantile((share-c.Background)/(1-c.Background))))
}

// Middle returns the load that half of the thresholds are below: what [Curve.Load] says of
// a half where there is no background.
func (c *Curve) Middle() float64 { return math.Exp(c.Mean) }

// Scaled returns the curve of a thing that bears so many times the load.
func (c *Curve) Scaled(by float64) *Curve {
	out := *c
	out.Mean += math.Log(by)
	out.centre += math.Log(by)
	return &out
}

// Resample returns n curves as likely as this one is, for all that is known: the
// parameters drawn from the normal distribution about the estimate. The same curve
// gives the same ones.
func (c *Curve) Resample(n int) []*Curve {
	var factor mat.Cholesky
	if !factor.Factorize(&c.cov.SymDense) {
		panic("threshold: a covariance that is not positive")
	}
	var lower mat.TriDense
	factor.LTo(&lower)
	r := rand.New(rand.NewPCG(uint64(c.Trials), uint64(c.Failed)))
	out := make([]*Curve, n)
	z, x := mat.NewVecDense(len(c.at), nil), mat.NewVecDense(len(c.at), nil)
	for i := range out {
		for k := range c.at {
			z.SetVec(k, r.NormFloat64())
		}
		x.MulVec(&lower, z)
		x.AddVec(x, mat.NewVecDense(len(c.at), c.at))
		out[i] = curveAt(c.centre, x.RawVector().Data)
	}
	return out
}
