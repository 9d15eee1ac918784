package threshold

import "math"

// Shift returns how many times the load of some units others bear, where the
// spread of both is that of a curve. Units that met the same chances one by one,
// and loads in proportion, tell it far better than two curves fitted apart would:
// what chance does to one mean it does to the other. Its error is [ErrOneSided]
// where that cannot be told.
func (c *Curve) Shift(from, to [][]Trial) (float64, error) {
	before, err := c.meanOf(from)
	if err != nil {
		return 0, err
	}
	after, err := c.meanOf(to)
	return math.Exp(after - before), err
}

// meanOf returns the mean of the logarithm of the threshold of units with the
// curve's spread: where the density has no slope, which falls with the mean.
func (c *Curve) meanOf(units [][]Trial) (float64, error) {
	p, _, _, err := observe(units)
	if err != nil {
		return 0, err
	}
	x := []float64{0, c.at[1], c.at[2]}
	grad := make([]float64, parameters)
	low, high := -1.0, 1.0
	const steps = 40
	for range steps {
		x[0] = (low + high) / 2
		if p.gradient(grad, x); grad[0] > 0 {
			high = x[0]
		} else {
			low = x[0]
		}
	}
	return p.centre + x[0], nil
}
