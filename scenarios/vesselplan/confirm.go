package vesselplan

import (
	"context"
	"slices"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
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
func (p *planner) confirm(ctx context.Context, a *Answer) (agreed bool, err error) {
	years := min(a.All.Rows[0].Short/quarters, p.years)
	a.Check = Check{Runs: checks, Through: years - 1}
	if years == 0 {
		return true, nil
	}
	var runs []study.Run
	for i, growth := range p.study.File.Planning.ShareOut(checks) {
		c := study.Case{Growth: growth, Years: years}
		runs = append(runs, study.Run{Case: &c, Replication: i})
	}
	p.simulated += checks * (years + p.study.File.Model.WarmUp)
	found, err := study.Each(ctx, p.study, runs, func(r *study.Result) ([]bool, error) {
		var missed []bool
		for months := range slices.Chunk(r.Record.Months, calendar.MonthsPerYear) {
			missed = append(missed, p.target.Missed(months))
		}
		return missed, nil
	}, nil)
	if err != nil {
		return false, err
	}
	for year := range years {
		n := 0
		for _, missed := range found {
			if missed[year] {
				n++
			}
		}
		a.Check.Missed = max(a.Check.Missed, n)
	}
	return !capability.Contradict(a.Check.Missed, checks, p.target.MissShare), nil
}
