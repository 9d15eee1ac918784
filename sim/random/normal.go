package random

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"
)

// standardNormal draws from the normal distribution of mean 0 and deviation 1.
func standardNormal(r *rand.Rand) float64 { return distuv.UnitNormal.Quantile(unit(r)) }

// Normal is the normal distribution. It has no bounds: for a quantity that can't
// be negative, [LognormalMeanCV] is the better choice.
type Normal struct {
	Expected float64
	SD       float64 // standard deviation
}

// Draw implements [Distribution].
func (d Normal) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Normal) Quantile(p float64) float64 {
	return d.Expected + d.SD*distuv.UnitNormal.Quantile(p)
}

// Mean implements [Distribution].
func (d Normal) Mean() float64 { return d.Expected }

// Validate implements [Distribution].
func (d Normal) Validate() error {
	if err := finite("normal", d.Expected, d.SD); err != nil {
		return err
	}
	if d.SD < 0 {
		return fmt.Errorf("normal: standard deviation %v is negative", d.SD)
	}
	return nil
}

// LognormalMeanCV is the lognormal distribution given by its own mean and
// coefficient of variation (standard deviation over mean, a fraction), so that
// more spread leaves the mean where it is.
type LognormalMeanCV struct {
	Expected float64
	CV       float64
}

// Draw implements [Distribution].
func (d LognormalMeanCV) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d LognormalMeanCV) Quantile(p float64) float64 {
	return d.Expected * meanOneLognormal(distuv.UnitNormal.Quantile(p), logVariance(d.CV))
}

// Mean implements [Distribution].
func (d LognormalMeanCV) Mean() float64 { return d.Expected }

// Validate implements [Distribution].
func (d LognormalMeanCV) Validate() error {
	if err := finite("lognormal", d.Expected, d.CV); err != nil {
		return err
	}
	if d.Expected <= 0 {
		return fmt.Errorf("lognormal: mean %v is not above zero", d.Expected)
	}
	if d.CV < 0 {
		return fmt.Errorf("lognormal: coefficient of variation %v is negative", d.CV)
	}
	return nil
}

// logVariance is the variance of the logarithm of a lognormal variable with
// coefficient of variation cv: ln(1 + cv²).
func logVariance(cv float64) float64 { return math.Log1p(cv * cv) }

// meanOneLognormal turns a standard normal z into a lognormal of mean one.
func meanOneLognormal(z, variance float64) float64 {
	return math.Exp(math.Sqrt(variance)*z - variance/2)
}
