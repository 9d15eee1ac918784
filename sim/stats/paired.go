package stats

import (
	"fmt"
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
