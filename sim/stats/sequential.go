package stats

import (
	"fmt"
	"math"
)

// ShareTest asks whether a probability is at or below a limit, replication by
// replication, until the answer is sure enough: Wald's sequential probability
// ratio test (Wald 1945; from memory). Where the answer is clear it needs far
// fewer replications than an interval does.
//
// No test can tell 5.0 % from 5.1 %. Between Low and High, around the limit, either
// answer is accepted: "at most 5 % of runs miss" may be asked with 0.03 and 0.07.
// At Low or below the test wrongly says "above" with a chance of about WrongAbove
// at most, at High or above it wrongly says "below" with about WrongBelow. Exactly,
// the first is at most WrongAbove/(1 − WrongBelow), and the other alike.
type ShareTest struct {
	Low, High              float64 // 0 < Low < High < 1
	WrongAbove, WrongBelow float64 // chances of error, above 0, together below 1
}

// Verdict is the answer of a [ShareTest].
type Verdict int

const (
	Undecided Verdict = iota // neither, with the trials there were
	Below                    // the probability is below High, so within the limit
	Above                    // the probability is above Low, so beyond the limit
)

// Check says what is wrong with the test, or nil.
func (s ShareTest) Check() error {
	if !(s.Low > 0 && s.Low < s.High && s.High < 1) {
		return fmt.Errorf("stats: probabilities %v and %v are not in order between 0 and 1", s.Low, s.High)
	}
	if !(s.WrongAbove > 0 && s.WrongBelow > 0 && s.WrongAbove+s.WrongBelow < 1) {
		return fmt.Errorf("stats: chances of error %v and %v are not above 0 and together below 1", s.WrongAbove, s.WrongBelow)
	}
	return nil
}

// Decide reads trials in order, true where the event happened, and stops at the
// first that decides. It returns the verdict and the number of trials read, which
// is all of them when undecided. The test must be sound (see Check).
func (s ShareTest) Decide(trials []bool) (verdict Verdict, read int) {
	hit, miss := s.steps()
	below, above := s.bounds()
	var ratio float64 // logarithm of the likelihood at High over that at Low
	for i, happened := range trials {
		if happened {
			ratio += hit
		} else {
			ratio += miss
		}
		switch {
		case ratio >= above:
			return Above, i + 1
		case ratio <= below:
			return Below, i + 1
		}
	}
	return Undecided, len(trials)
}

// steps are what a trial adds to the logarithm of the likelihood ratio.
func (s ShareTest) steps() (hit, miss float64) {
	return math.Log(s.High / s.Low), math.Log((1 - s.High) / (1 - s.Low))
}

// bounds are where the logarithm of the likelihood ratio decides.
func (s ShareTest) bounds() (below, above float64) {
	return math.Log(s.WrongBelow / (1 - s.WrongAbove)), math.Log((1 - s.WrongBelow) / s.WrongAbove)
}

// Least returns the fewest trials with which the test can say "below": those of an
// event that never happens.
func (s ShareTest) Least() int {
	_, miss := s.steps()
	below, _ := s.bounds()
	return int(math.Ceil(below/miss - 1e-9))
}
