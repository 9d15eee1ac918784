package random

import (
	"errors"
	"fmt"
	"math/rand/v2"
)

// Empirical draws one of the Values, each with a chance in proportion to its
// Weight, or all with the same chance when Weights is empty. Give the values in
// rising order to keep a draw growing with its random number.
type Empirical struct {
	Values  []float64
	Weights []float64
}

// Draw implements [Distribution].
func (d Empirical) Draw(r *rand.Rand) float64 { return d.Quantile(unit(r)) }

// Quantile implements [Distribution].
func (d Empirical) Quantile(p float64) float64 {
	if len(d.Weights) == 0 {
		return d.Values[int(p*float64(len(d.Values)))]
	}
	left := p * sum(d.Weights)
	for i, w := range d.Weights {
		if left < w {
			return d.Values[i]
		}
		left -= w
	}
	return d.Values[d.lastWithWeight()]
}

// lastWithWeight is where rounding may leave a draw that ran past the end.
func (d Empirical) lastWithWeight() int {
	i := len(d.Weights) - 1
	for d.Weights[i] == 0 {
		i--
	}
	return i
}

// Mean implements [Distribution].
func (d Empirical) Mean() float64 {
	if len(d.Weights) == 0 {
		return sum(d.Values) / float64(len(d.Values))
	}
	var m float64
	for i, v := range d.Values {
		m += v * d.Weights[i]
	}
	return m / sum(d.Weights)
}

// Validate implements [Distribution].
func (d Empirical) Validate() error {
	if len(d.Values) == 0 {
		return errors.New("empirical: no values")
	}
	if err := finite("empirical", d.Values...); err != nil {
		return err
	}
	if len(d.Weights) == 0 {
		return nil
	}
	if len(d.Weights) != len(d.Values) {
		return fmt.Errorf("empirical: %d values but %d weights", len(d.Values), len(d.Weights))
	}
	if err := finite("empirical", d.Weights...); err != nil {
		return err
	}
	for _, w := range d.Weights {
		if w < 0 {
			return fmt.Errorf("empirical: weight %v is negative", w)
		}
	}
	if sum(d.Weights) == 0 {
		return errors.New("empirical: all weights are zero")
	}
	return nil
}

func sum(xs []float64) float64 {
	var s float64
	for _, x := range xs {
		s += x
	}
	return s
}
