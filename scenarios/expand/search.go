package expand

import (
	"context"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// screen works out what each step costs by the year in which it comes, and
// simulates how long the plant lasts as it is.
func (e *expansion) screen(ctx context.Context) error {
	asIs, err := e.probe(ctx, nil)
	if err != nil {
		return err
	}
	e.needs = []plant.Needs{asIs.needs}
	for y := range e.years {
		e.running += e.useWorth(asIs.use, y)
	}
	for i, step := range e.steps {
		with, err := e.probe(ctx, e.inForce(e.strides[i]))
		if err != nil {
			return err
		}
		e.needs = append(e.needs, with.needs)
		e.cost = append(e.cost, e.stepCosts(step, asIs, with))
	}
	return e.simulate(ctx, 0)
}

// propose asks the program, glances at the configurations that its best plans rest on and
// asks again, simulates those that it has had a glance at and asks again, until the plans
// rest on what was simulated. Those are so many, or as few of them as a choice of the
// cheapest can be among. Where not even the first year can be kept, it proposes to build
// nothing.
func (e *expansion) propose(ctx context.Context, of func([]path) []path) (through int, plans []path, err error) {
	for {
		lasts, err := e.lasts()
		if err != nil {
			return 0, nil, err
		}
		p := e.program(lasts, e.barred)
		through, plans := p.solve()
		if plans = of(plans); len(plans) == 0 {
			return through, []path{{}}, nil
		}
		open := e.open(plans)
		e.report(len(open), len(plans))
		if len(open) == 0 || len(e.order) >= mostSimulated {
			return through, plans, nil
		}
		if err := e.closer(ctx, open); err != nil {
			return 0, nil, err
		}
	}
}

// contending is the share of the present worth within which a plan that is dearer by the
// program may be the cheapest by whole runs. What the program leaves out, how steps change
// what each other cost to run and what is hauled away, came to less than a tenth of it on
// the built-in plants. What is hauled by contract is known less well, see hauling.go.
const contending, contendingHauled = 0.01, 0.03

// contenders are the plans that may be the cheapest, of plans from the cheapest on.
func (e *expansion) contenders(plans []path) []path {
	n, within := 0, contending
	if e.contracted {
		within = contendingHauled
	}
	for n < min(len(plans), mostContenders) && plans[n].cost-plans[0].cost <= within*math.Abs(e.running+plans[0].cost) {
		n++
	}
	return plans[:n]
}

// toShow are the plans to show, of plans from the cheapest on.
func (e *expansion) toShow(plans []path) []path { return plans[:min(e.shown, len(plans))] }

// closer glances at the first configuration of some at which it was not glanced yet, or
// else simulates the first.
func (e *expansion) closer(ctx context.Context, open []int) error {
	for _, config := range open {
		if _, glanced := e.about[config]; !glanced && len(e.bases) < mostSimulated {
			return e.glance(ctx, config)
		}
	}
	return e.simulate(ctx, open[0])
}

// open lists the configurations of plans of which it is not known whether they
// last as long as they must, in the order of plans and years.
func (e *expansion) open(plans []path) []int {
	var out []int
	for _, p := range plans {
		for y, c := range p.configs {
			if y == len(p.configs)-1 || p.configs[y+1] != c {
				if !e.known(c, y) {
					out = append(out, c)
				}
			}
		}
	}
	return out
}

// report tells how many years have been simulated, and about how many there will
// be with some configurations still to look at, and plans to compare.
func (e *expansion) report(configurations, plans int) {
	states, wholes := e.states.Simulated(), e.wholeYears()
	still := configurations * states / max(1, len(e.order))
	compared := max(wholes, plans*usualRuns*(e.years+e.model.WarmUp))
	e.tell(states+wholes, states+still+compared)
}

// usualRuns of a plan, for the estimate of what is still to do.
const usualRuns = 24

// stepsOf returns the dated steps of a plan, in the order of its years.
func (e *expansion) stepsOf(p path) []facilityfile.Step {
	var out []facilityfile.Step
	e.taken(p, func(year, step, count int) {
		s := e.steps[step]
		s.Date = s.Lead.Before(e.model.Start.AddYears(year))
		for range count {
			out = append(out, s)
		}
	})
	return out
}

// taken calls f for each step that a plan takes in a year.
func (e *expansion) taken(p path, f func(year, step, count int)) {
	before := 0
	for y, c := range p.configs {
		for i := range e.steps {
			if n := e.count(c, i) - e.count(before, i); n > 0 {
				f(y, i, n)
			}
		}
		before = c
	}
}
