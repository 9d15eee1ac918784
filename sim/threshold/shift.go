package threshold

import (
	"math"
	"slices"
)

// Shift returns how many times the load of some units others bear, where the
// spread of both is that of a curve. Units that met the same chances one by one,
// and loads in proportion, tell it far better than two curves fitted apart would:
// what chance does to one mean it does to the other. Its error is [ErrOneSided]
// where that cannot be told.
func (c *Curve) Shift(from, to [][]Trial) (float64, error) {
	x := []float64{0, c.at[1], c.at[2]}
	if least := coarse * max(spacing(from), spacing(to)); c.Spread() < least {
		x[1], x[2] = math.Log(least), usualLogit
	}
	before, err := meanOf(from, x)
	if err != nil {
		return 0, err
	}
	after, err := meanOf(to, x)
	return math.Exp(after - before), err
}

// coarse is the part of the distance between loads that the spread is taken to be at
// least: a mean would else be sought where nothing is likely at all.
const coarse = 0.5

// spacing is the mean distance between the loads of units, in logarithms.
func spacing(units [][]Trial) float64 {
	sum, n := 0.0, 0
	for _, unit := range units {
		for i := range unit[1:] {
			sum += math.Abs(math.Log(unit[i+1].Load / unit[i].Load))
			n++
		}
	}
	return sum / float64(max(n, 1))
}

// meanOf returns the mean of the logarithm of the threshold of units, other parameters
// given: where the density has no slope, which falls with the mean.
func meanOf(units [][]Trial, x []float64) (float64, error) {
	p, _, _, err := observe(units)
	if err != nil {
		return 0, err
	}
	x = slices.Clone(x)
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
