package vesselplan

import (
	"context"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
)

// Check is what whole runs from the start say of the years that are kept with the
// vessels installed.
type Check struct {
	Runs    int
	Through int // the last year looked at; −1 for none
	Missed  int // runs that miss the worst of these years
}

const checks = capability.Checks

// confirm runs the plant from the start to the last year that the vessels
// installed keep by the estimate, and reports whether as few runs miss as the
// target allows.
func (p *planner) confirm(ctx context.Context, a *Answer) (bool, error) {
	years := min(a.All.Rows[0].Short/quarters, p.years)
	a.Check = Check{Runs: checks, Through: years - 1}
	if years == 0 {
		return true, nil
	}
	p.simulated += checks * (years + p.study.File.Model.WarmUp)
	whole, err := capability.WholeRuns(ctx, p.study, study.Case{}, p.study.File.Planning.ShareOut(checks), years)
	if err != nil {
		return false, err
	}
	a.Check.Missed = whole.Missed
	if a.Hauls {
		a.Contract = whole.Contract
	}
	return !capability.Contradict(a.Check.Missed, checks, p.target.MissShare), nil
}
