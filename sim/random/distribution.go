package random

import (
	"fmt"
	"math"
	"math/rand/v2"
)

// Distribution is something to draw numbers from.
type Distribution interface {
	// Draw takes one number from the stream. The distribution must be valid.
	Draw(r *rand.Rand) float64
	// Quantile returns the value below which a draw falls with probability p,
	// which lies between 0 and 1, ends excluded. It never falls when p rises. A
	// draw is the quantile of a uniform number, bit for bit.
	Quantile(p float64) float64
	// Mean returns the expected value.
	Mean() float64
	// Validate says what is wrong with the parameters, or nil.
	Validate() error
}

// unit returns a number of the open interval (0, 1): the middle of one of 2^52
// equal parts, so that no quantile is asked for at 0 or 1, where it is infinite.
// With 2^53 parts the middle of the last one would be rounded to 1.
func unit(r *rand.Rand) float64 {
	return (float64(r.Uint64()>>12) + 0.5) * 0x1p-52
}

// Constant is always the same value. Drawing takes a number from the stream all
// the same, so that replacing it with a spread shifts nothing.
type Constant struct{ Value float64 }

// Draw implements [Distribution].
func (d Constant) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Constant) Quantile(float64) float64 { return d.Value }

// Mean implements [Distribution].
func (d Constant) Mean() float64 { return d.Value }

// Validate implements [Distribution].
func (d Constant) Validate() error { return finite("constant", d.Value) }

// Uniform is spread evenly from Min to Max.
type Uniform struct{ Min, Max float64 }

// Draw implements [Distribution].
func (d Uniform) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Uniform) Quantile(p float64) float64 { return d.Min + (d.Max-d.Min)*p }

// Mean implements [Distribution].
func (d Uniform) Mean() float64 { return (d.Min + d.Max) / 2 }

// Validate implements [Distribution].
func (d Uniform) Validate() error {
	if err := finite("uniform", d.Min, d.Max); err != nil {
		return err
	}
	if d.Min > d.Max {
		return fmt.Errorf("uniform: minimum %v is above maximum %v", d.Min, d.Max)
	}
	return nil
}

// Exponential is the time between events that have no memory.
type Exponential struct{ Expected float64 }

// Draw implements [Distribution].
func (d Exponential) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Exponential) Quantile(p float64) float64 { return -d.Expected * math.Log1p(-p) }

// finite refuses parameters that are not numbers or are infinite.
func finite(name string, values ...float64) error {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s: parameter is %v", name, v)
		}
	}
	return nil
}
