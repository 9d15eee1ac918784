package vesselplan

import (
	"context"
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
	"loamcast/sim/stats"
)

// Enough times the fewest replications with which a year can be told to be kept
// decide all years but those near the target.
const Enough = 3.5

// Search finds how long any case lasts, in the same way as the staircase does
// for numbers of vessels.
type Search struct{ *search }

// NewSearch returns a search by the service target of the study's file. A year is
// replicated at most so many times, and its verdict wrong with about such a chance
// on either side; 0 for Enough times the fewest that can tell, and DefaultWrong.
func NewSearch(s *study.Study, most int, wrong float64) (Search, error) {
	f := s.File
	if wrong == 0 {
		wrong = DefaultWrong
	}
	test := testOf(f.Planning.Target, wrong)
	if err := test.Check(); err != nil {
		return Search{}, fmt.Errorf("the service target: %w", err)
	}
	least := test.Least()
	if most == 0 {
		most = int(Enough * float64(least))
	}
	if most < least {
		return Search{}, fmt.Errorf("%d replications of a year cannot tell whether this target is kept; %d can at the least", most, least)
	}
	return Search{&search{study: s, target: f.Planning.Target, test: test, years: f.Model.Years, most: most}}, nil
}

// Test returns the test that judges years.
func (s Search) Test() stats.ShareTest { return s.test }

// Simulated counts the years simulated so far, warm-ups included.
func (s Search) Simulated() int { return s.simulated }

// Lasting is what a case lasts for.
type Lasting struct {
	// LastKept and FirstMissed are as in [Row].
	LastKept, FirstMissed int
	// Months are those of the replications of the year after LastKept, or of the
	// last year if it is kept, and Limit what solids waited for most in them, other
	// than for a load to come together.
	Months []plant.Month
	Limit  plant.Cause
}

// Within says what is known of a case before it is simulated: years up to Kept
// are kept, −1 for none, the year Missed is missed, the number of years of the
// horizon for none, and the first that is missed is expected at Guess, −1
// without a guess.
type Within struct{ Kept, Missed, Guess int }

// Lasting finds how long a case keeps the target. Its steps must be in force from
// the first day simulated.
func (s Search) Lasting(ctx context.Context, c study.Case, within Within) (Lasting, error) {
	var l Lasting
	cell, err := s.cell(c)
	if err != nil {
		return l, err
	}
	if l.LastKept, l.FirstMissed, err = cell.boundary(ctx, within.Kept, within.Missed, within.Guess); err != nil {
		return l, err
	}
	at := min(l.LastKept+1, s.years-1)
	if err := cell.extend(ctx, at, min(scouts, s.most)); err != nil {
		return l, err
	}
	for _, t := range cell.trials[at] {
		l.Months = append(l.Months, t.months...)
	}
	l.Limit = limit(cell.months(at), s.target)
	return l, nil
}
