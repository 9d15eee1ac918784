package compare

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
	return best, chanceOf(best, values, goal, pairedLoss), nil
}

// Order returns the options from best to worst mean, and about the chance that
// all of the order is right. It is, when each option is better than the next, so
// the chance is one less the chances, as in [Best], that one of those is not.
func Order(values [][]float64, goal Goal) (order []int, chance float64, err error) {
	if err := checkValues(values); err != nil {
		return nil, 0, err
	}
	means := make([]float64, len(values))
	for i, xs := range values {
		means[i] = stat.Mean(xs, nil)
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(goal.lead(means[b], means[a]), 0) })
	chance = 1
	for i, worse := range order[1:] {
		chance -= pairedLoss(values[order[i]], values[worse], goal)
	}
	return order, max(chance, 0), nil
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

// loss is about the chance that b is better than a after all, given that a has
// the better mean.
type loss func(a, b []float64, goal Goal) float64

// chanceOf returns about the chance that an option is the best.
func chanceOf(best int, values [][]float64, goal Goal, lost loss) float64 {
	chance := 1.0
	for i, xs := range values {
		if i != best {
			chance -= lost(values[best], xs, goal)
		}
	}
	return max(chance, 0)
}

// pairedLoss judges by the replications that both have.
func pairedLoss(a, b []float64, goal Goal) float64 {
	n := min(len(a), len(b))
	lead := goal.lead(stat.Mean(a[:n], nil), stat.Mean(b[:n], nil))
	se := math.Sqrt(stat.Variance(minus(a, b), nil) / float64(n))
	return tail(lead, se, distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.CDF)
}

// separateLoss judges options without common random numbers, by the normal
// approximation of the paper.
func separateLoss(a, b []float64, goal Goal) float64 {
	lead := goal.lead(stat.Mean(a, nil), stat.Mean(b, nil))
	se := math.Sqrt(stat.Variance(a, nil)/float64(len(a)) + stat.Variance(b, nil)/float64(len(b)))
	return tail(lead, se, normalCDF)
}

// tail is the chance of −lead/se or less. Without any spread it is certain who
// leads, unless both are equal.
func tail(lead, se float64, cdf func(float64) float64) float64 {
	switch {
	case lead == 0:
		return 0.5
	case se > 0:
		return cdf(-lead / se)
	case lead > 0:
		return 0
	default:
		return 1
	}
}
