package compare

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// Best returns the option with the best mean, and about the chance that it is the
// best indeed: one less the chances, added up, that each other one is, from the t
// statistic of the paired differences,
//
//	1 − Σ T(−t), t = mean lead / standard error, T with n − 1 degrees of freedom,
//
// and 0 if that is less (Bonferroni's bound, as in the approximate probability of
// correct selection of Chen, Lin, Yücesan and Chick 2000; from memory). It takes
// the estimates for the truth and is an indication, not a guarantee.
//
// values[i][j] is the number of option i in replication j; all need the same
// replications, 2 or more.
func Best(values [][]float64, goal Goal) (best int, chance float64, err error) {
	if err := checkValues(values); err != nil {
		return 0, 0, err
	}
	best = bestMean(values, goal)
	return best, chanceOf(best, values, goal), nil
}

// bestMean returns the option with the best mean; of equals, the first.
func bestMean(values [][]float64, goal Goal) int {
	best, lead := 0, stat.Mean(values[0], nil)
	for i, xs := range values {
		if m := stat.Mean(xs, nil); goal.better(m, lead) {
			best, lead = i, m
		}
	}
	return best
}

func checkValues(values [][]float64) error {
	if len(values) < 2 {
		return fmt.Errorf("compare: %d options, nothing to choose", len(values))
	}
	for i, xs := range values {
		if len(xs) < 2 || len(xs) != len(values[0]) {
			return fmt.Errorf("compare: option %d has %d replications, the first has %d; all need the same number, 2 or more", i, len(xs), len(values[0]))
		}
	}
	return nil
}

// chanceOf returns about the chance that an option is the best.
func chanceOf(best int, values [][]float64, goal Goal) float64 {
	chance := 1.0
	for i, xs := range values {
		if i != best {
			chance -= loss(values[best], xs, goal)
		}
	}
	return max(chance, 0)
}

// loss is about the chance that b is better than a after all, given that a has
// the better mean, by the replications that both have.
func loss(a, b []float64, goal Goal) float64 {
	n := min(len(a), len(b))
	lead := goal.lead(stat.Mean(a[:n], nil), stat.Mean(b[:n], nil))
	se := math.Sqrt(stat.Variance(minus(a, b), nil) / float64(n))
	switch { // without any spread it is certain who leads, unless both are equal
	case lead == 0:
		return 0.5
	case se > 0:
		return distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.CDF(-lead / se)
	case lead > 0:
		return 0
	default:
		return 1
	}
}
