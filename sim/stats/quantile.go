package stats

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
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

// QuantileInterval estimates the q-quantile, 0 < q < 1, of independent
// observations whatever their distribution: its ends are order statistics chosen
// by [QuantileRanks]. Where the observations are too few for an end at this
// level, it is infinite. The estimate is [Quantile].
func QuantileInterval(xs []float64, q, level float64) (Interval, error) {
	low, high, err := QuantileRanks(len(xs), q, level)
	if err != nil {
		return Interval{}, err
	}
	sorted := slices.Sorted(slices.Values(xs))
	i := Interval{Estimate: SortedQuantile(sorted, q), Low: math.Inf(-1), High: math.Inf(1), Level: level}
	if low >= 1 {
		i.Low = sorted[low-1]
	}
	if high <= len(xs) {
		i.High = sorted[high-1]
	}
	return i, nil
}

// QuantileRanks returns the ranks, from 1 to n, of the order statistics that
// bound the q-quantile of n independent observations with a confidence of at
// least level. Rank 0 and rank n+1 mean that there is no such bound.
//
// The number of observations below the quantile is binomial (n, q), and the
// interval holds the quantile if that number is at least low and below high. The
// ranks begin where each tail leaves out at most half of 1 − level, and are then
// brought together, the cheaper end first, while the confidence allows it (David
// and Nagaraja, Order Statistics, from memory).
func QuantileRanks(n int, q, level float64) (low, high int, err error) {
	if err := checkLevel(level); err != nil {
		return 0, 0, err
	}
	if n < 1 || !(q > 0 && q < 1) {
		return 0, 0, fmt.Errorf("stats: can't bound quantile %v with %d observations", q, n)
	}
	below := distuv.Binomial{N: float64(n), P: q}
	tail := (1 - level) / 2
	for low < n && below.CDF(float64(low)) <= tail {
		low++
	}
	high = low + 1
	for high <= n && 1-below.CDF(float64(high-1)) > tail {
		high++
	}
	spare := below.CDF(float64(high-1)) - level
	if low > 0 {
		spare -= below.CDF(float64(low - 1))
	}
	for {
		dropLow, dropHigh := below.Prob(float64(low)), below.Prob(float64(high-1))
		switch {
		case min(dropLow, dropHigh) > spare:
			return low, high, nil
		case dropLow <= dropHigh:
			low++
			spare -= dropLow
		default:
			high--
			spare -= dropHigh
		}
	}
}

// MinimumToBound returns the least number of independent observations whose
// maximum lies above the q-quantile with the given confidence: the least n with
// 1 − qⁿ ≥ level. Both are fractions between 0 and 1, ends excluded.
func MinimumToBound(q, level float64) int {
	return int(math.Ceil(math.Log1p(-level) / math.Log(q)))
}
