package stats

import (
	"fmt"

	"gonum.org/v1/gonum/stat"
)

// PairedMean estimates the mean of a − b from observations that belong together,
// a[i] with b[i], such as two plans in the same replication: [MeanInterval] of
// the differences. What both have in common falls out, so common random numbers
// make it short (Law, Simulation Modeling and Analysis, ch. 10 and 11, from
// memory).
func PairedMean(a, b []float64, level float64) (Interval, error) {
	d, err := differences(a, b)
	if err != nil {
		return Interval{}, err
	}
	return MeanInterval(d, level)
}

// PairedQuantile estimates the q-quantile of the difference a − b in one
// replication: [QuantileInterval] of the differences. That is not the difference
// of the two quantiles. "In nine replications of ten a costs at most so much more
// than b" is this one at q = 0.9.
func PairedQuantile(a, b []float64, q, level float64) (Interval, error) {
	d, err := differences(a, b)
	if err != nil {
		return Interval{}, err
	}
	return QuantileInterval(d, q, level)
}

// VarianceRatio returns what pairing saves: the variance that the difference of
// means would have from separate random numbers, over the one that it has. A
// ratio of 4 does with a quarter of the replications. It is infinite when all
// differences are equal, and NaN when, besides, neither a nor b varies.
func VarianceRatio(a, b []float64) (float64, error) {
	d, err := differences(a, b)
	if err != nil {
		return 0, err
	}
	if len(d) < 2 {
		return 0, fmt.Errorf("stats: a variance needs 2 observations, not %d", len(d))
	}
	return (stat.Variance(a, nil) + stat.Variance(b, nil)) / stat.Variance(d, nil), nil
}

// Simultaneous returns the level that each of n intervals needs for all of them
// to hold together with the level given, whatever the dependence between them:
// 1 − (1 − level)/n (Bonferroni).
func Simultaneous(level float64, n int) float64 { return 1 - (1-level)/float64(n) }

func differences(a, b []float64) ([]float64, error) {
	if len(a) != len(b) {
		return nil, fmt.Errorf("stats: %d observations can't be paired with %d", len(a), len(b))
	}
	d := make([]float64, len(a))
	for i := range a {
		d[i] = a[i] - b[i]
	}
	return d, nil
}
