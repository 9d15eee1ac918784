package stats

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
)

// MSER-5 takes means of five observations, and does not look at the last five of
// them, where a few equal values by chance would win.
const (
	mserBatch = 5
	mserTail  = 5
)

// warmUpNeeds is the least series in which a cut at the half can be seen.
const warmUpNeeds = 2 * (mserTail + 1) * mserBatch

// WarmUp returns how many observations to leave out at the beginning of a series
// that starts away from its steady state, by MSER-5: the series is cut into means
// of five, and the cut is where the standard error of what remains, taken as if
// the means were independent, is least (White 1997; White, Cobb and Spratt 2000;
// from memory). What does not fill a batch is left out at the end.
//
// A least value in the second half of the series says that it has not settled:
// it is too short, or never will. Then settled is false, and the number is the
// half, no more than a guess. WarmUp needs 60 observations.
func WarmUp(xs []float64) (observations int, settled bool, err error) {
	if len(xs) < warmUpNeeds {
		return 0, false, fmt.Errorf("stats: a warm-up can't be seen in %d observations, only in %d or more", len(xs), warmUpNeeds)
	}
	means := batchMeans(xs, mserBatch)
	half := len(means) / 2
	cut := leastErrorCut(means)
	return min(cut, half) * mserBatch, cut < half, nil
}

// leastErrorCut returns the d that minimises the sum of squared deviations of
// means[d:] from their own mean, over the square of their number; of equals the
// first.
func leastErrorCut(means []float64) int {
	best, least := 0, math.Inf(1)
	var rest Tally
	for d := len(means) - 1; d >= 0; d-- {
		rest.Add(means[d])
		n := float64(rest.N())
		if e := rest.squares / (n * n); n > mserTail && e <= least {
			best, least = d, e
		}
	}
	return best
}

// batchMeans returns the means of consecutive batches of the given size.
func batchMeans(xs []float64, size int) []float64 {
	means := make([]float64, len(xs)/size)
	for i := range means {
		means[i] = stat.Mean(xs[i*size:(i+1)*size], nil)
	}
	return means
}

// Welch returns the moving average by which a person sees where a warm-up ends:
// the series of several replications, all of the same length, are averaged
// instant by instant, and each point then over window neighbours on either side,
// or over as many as there are on the side of the start. The last window points
// have too few neighbours and are left out, so the curve is shorter by window
// (Welch 1983; Law, Simulation Modeling and Analysis, ch. 9; from memory).
func Welch(replications [][]float64, window int) ([]float64, error) {
	if len(replications) == 0 {
		return nil, fmt.Errorf("stats: no series to average")
	}
	length := len(replications[0])
	if window < 0 || length <= window {
		return nil, fmt.Errorf("stats: a window of %d does not fit a series of %d", window, length)
	}
	average := make([]float64, length)
	for r, xs := range replications {
		if len(xs) != length {
			return nil, fmt.Errorf("stats: series %d has %d points, the first has %d", r, len(xs), length)
		}
		for i, x := range xs {
			average[i] += x / float64(len(replications))
		}
	}
	curve := make([]float64, length-window)
	for i := range curve {
		w := min(i, window)
		curve[i] = stat.Mean(average[i-w:i+w+1], nil)
	}
	return curve, nil
}

// SettledFrom reads a curve of [Welch] by rule: the first point from which on it
// stays within tolerance, in the curve's unit, of the mean of its second half.
// It is false when that is not before the second half.
func SettledFrom(curve []float64, tolerance float64) (from int, settled bool) {
	half := len(curve) / 2
	level := stat.Mean(curve[half:], nil)
	from = len(curve)
	for from > 0 && math.Abs(curve[from-1]-level) <= tolerance {
		from--
	}
	return from, from < half
}
