package stats

import "math"

// Tally sums up observations as they come, by Welford's method, which loses no
// digits to large means (Welford 1962, from memory). The zero Tally is empty.
type Tally struct {
	n         int
	mean      float64
	squares   float64 // sum of squared deviations from the mean
	low, high float64
}

// Add takes an observation.
func (t *Tally) Add(x float64) {
	t.n++
	if t.n == 1 {
		t.low, t.high = x, x
	}
	d := x - t.mean
	t.mean += d / float64(t.n)
	t.squares += d * (x - t.mean)
	t.low = min(t.low, x)
	t.high = max(t.high, x)
}

// N returns the number of observations.
func (t *Tally) N() int { return t.n }

// Mean returns their mean, or NaN without any.
func (t *Tally) Mean() float64 {
	if t.n == 0 {
		return math.NaN()
	}
	return t.mean
}

// Sum returns their sum.
func (t *Tally) Sum() float64 { return t.mean * float64(t.n) }

// Variance returns the sample variance, or NaN with fewer than two.
func (t *Tally) Variance() float64 {
	if t.n < 2 {
		return math.NaN()
	}
	return t.squares / float64(t.n-1)
}

// SD returns the sample standard deviation, or NaN with fewer than two.
func (t *Tally) SD() float64 { return math.Sqrt(t.Variance()) }

// Min returns the lowest, or NaN without any.
func (t *Tally) Min() float64 {
	if t.n == 0 {
		return math.NaN()
	}
	return t.low
}

// Max returns the highest, or NaN without any.
func (t *Tally) Max() float64 {
	if t.n == 0 {
		return math.NaN()
	}
	return t.high
}
