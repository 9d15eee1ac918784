package stats

import (
	"fmt"
	"math"
	"slices"
)

// Quantile returns the q-quantile of the observations, 0 ≤ q ≤ 1, in any order:
// the value at position (n − 1)q in the sorted list counted from 0, in a straight
// line between neighbours. This is definition 7 of Hyndman and Fan (1996), the
// usual one of spreadsheets. Without observations it is NaN; any other q panics.
func Quantile(xs []float64, q float64) float64 {
	return SortedQuantile(slices.Sorted(slices.Values(xs)), q)
}

// SortedQuantile is [Quantile] of observations already in rising order.
func SortedQuantile(sorted []float64, q float64) float64 {
	if !(q >= 0 && q <= 1) {
		panic(fmt.Errorf("stats: quantile %v is not between 0 and 1", q))
	}
	if len(sorted) == 0 {
		return math.NaN()
	}
	position := q * float64(len(sorted)-1)
	i := int(position)
	if i == len(sorted)-1 {
		return sorted[i]
	}
	f := position - float64(i)
	return sorted[i]*(1-f) + sorted[i+1]*f
}
