package stats

import (
	"math"

	"gonum.org/v1/gonum/stat"
)

// SettledFrom tells where a start has faded from a curve, such as a level averaged
// over replications: the first point from which on it stays within tolerance, in the curve's unit, of the mean of its second half.
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
