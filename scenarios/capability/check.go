package capability

import "gonum.org/v1/gonum/stat/distuv"

// Checks are the whole runs, over all growth scenarios by weight, that check what the
// capability says.
const Checks = 24

// doubtful is the chance below which whole runs contradict.
const doubtful = 0.01

// Contradict reports whether so many of some runs miss a year that they would do so by
// chance hardly ever if no greater share than the target allows did.
func Contradict(missed, runs int, limit float64) bool {
	byChance := distuv.Binomial{N: float64(runs), P: limit}
	return missed > 0 && 1-byChance.CDF(float64(missed-1)) < doubtful
}
