package expand

import (
	"context"
	"slices"
	"sync"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// whole is a plan that is simulated over the whole horizon.
type whole struct {
	path
	steps []facilityfile.Step

	mu   sync.Mutex
	runs map[int]outcome // by replication
	told int             // replications of which it is told what the plan costs, if it comes first
}

// outcome is what is kept of one run.
type outcome struct {
	cost   money.Cost
	missed []bool // the target, by year
	// fed are the dry solids that came in, and contract those hauled by contract, kg.
	fed, contract float64
}

// wholeOf returns the plan with the runs that it already has.
func (e *expansion) wholeOf(p path) *whole {
	for _, w := range e.wholes {
		if slices.Equal(w.configs, p.configs) {
			return w
		}
	}
	w := &whole{path: p, steps: e.file.Planning.ToldApart(e.stepsOf(p)), runs: map[int]outcome{}}
	e.wholes = append(e.wholes, w)
	return w
}

// wholeYears counts the years simulated of whole plans, warm-ups included.
func (e *expansion) wholeYears() int {
	n := 0
	for _, w := range e.wholes {
		n += len(w.runs) * (e.years + e.model.WarmUp)
	}
	return n
}

// reduce judges a run.
func (e *expansion) reduce(r *study.Result) (outcome, error) {
	if e.discount != nil {
		r.Economy.Rates.Discount = *e.discount
	}
	plan, err := costs.Plan(&e.file.Planning, r)
	if err != nil {
		return outcome{}, err
	}
	out := outcome{cost: plan.Cost()}
	for y := range r.Record.Years {
		months := r.Record.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
		out.missed = append(out.missed, e.file.Planning.Target.Missed(months))
		for i := range months {
			out.fed += months[i].Feed.Dry
			out.contract += months[i].Holding.ContractDry
		}
	}
	return out, nil
}

// outcome returns one replication of a plan, simulated now if it was not before.
func (w *whole) outcome(ctx context.Context, e *expansion, rep int) (outcome, error) {
	w.mu.Lock()
	out, done := w.runs[rep]
	w.mu.Unlock()
	if done {
		return out, nil
	}
	result, err := e.study.Simulate(ctx, study.Run{Case: &study.Case{Growth: e.growths.of(rep), Steps: w.steps}, Replication: rep})
	if err != nil {
		return outcome{}, err
	}
	if out, err = e.reduce(result); err != nil {
		return outcome{}, err
	}
	w.mu.Lock()
	defer w.mu.Unlock()
	w.runs[rep] = out
	return out, nil
}

// replications is how many there are from the first on without a gap.
func (w *whole) replications() int {
	n := 0
	for {
		if _, done := w.runs[n]; !done {
			return n
		}
		n++
	}
}

// present returns the present worths of the first n replications, USD.
func (w *whole) present(n int) []float64 {
	out := make([]float64, n)
	for rep := range out {
		out[rep] = w.runs[rep].cost.Present
	}
	return out
}

// missed returns in which replications a year misses the target.
func (w *whole) missed(year int) []bool {
	out := make([]bool, w.replications())
	for rep := range out {
		out[rep] = w.runs[rep].missed[year]
	}
	return out
}

// missedYear is a year that a plan misses, and the configuration in force in it.
type missedYear struct{ config, year int }

// judge returns the first year, of those that must be kept, that whole runs of a plan
// say is missed, or nil, and whether they have said all that is asked of them. Where
// what configurations carry tells the years, whole runs are a check, which only
// contradicts; elsewhere it is the test of the target that must judge each year.
func (e *expansion) judge(w *whole, through int) (missed *missedYear, decided bool) {
	if !e.steady {
		return w.judge(e.byRuns, through)
	}
	n := w.replications()
	if n < min(capability.Checks, e.most) {
		return nil, false
	}
	for y := range through + 1 {
		if capability.Contradict(w.hits(y), n, e.target.MissShare) {
			return &missedYear{w.configs[y], y}, true
		}
	}
	return nil, true
}

// judge returns the first year, of those that must be kept, of which the test says
// that it is missed, or nil, and whether the test has made up its mind.
func (w *whole) judge(test stats.ShareTest, through int) (missed *missedYear, decided bool) {
	decided = true
	for y := range through + 1 {
		switch verdict, _ := test.Decide(w.missed(y)); verdict {
		case stats.Above:
			return &missedYear{w.configs[y], y}, true
		case stats.Undecided:
			decided = false
		}
	}
	return nil, decided
}

// above returns the first year, of those that must be kept, that more of the runs
// miss than may, or nil: the last word on years that the test cannot judge.
func (w *whole) above(most float64, through int) *missedYear {
	for y := range through + 1 {
		if float64(w.hits(y)) > most*float64(w.replications()) {
			return &missedYear{w.configs[y], y}
		}
	}
	return nil
}

// hits counts the replications that miss a year.
func (w *whole) hits(year int) int {
	n := 0
	for _, missed := range w.missed(year) {
		if missed {
			n++
		}
	}
	return n
}
