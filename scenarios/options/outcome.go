package options

import (
	"math"

	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// outcome is what is kept of one run.
type outcome struct {
	cost           money.Cost
	account        costs.Account
	fed, untreated float64 // kg dry
	contract       float64 // kg dry hauled by contract
	missed         []bool  // the target, by year
	// waitedAlone counts the years that miss it by cake that waits too long, and not
	// by what leaves untreated.
	waitedAlone float64
	over        float64   // hours over the air limit
	inService   []float64 // when each step of the option took effect, years; NaN if it did not
}

// reduce judges a run.
func (c *comparison) reduce(r *study.Result) (outcome, error) {
	if c.discount != nil {
		r.Economy.Rates.Discount = *c.discount
	}
	p := &c.file.Planning
	plan, err := costs.Plan(p, r)
	if err != nil {
		return outcome{}, err
	}
	out := outcome{cost: plan.Cost(), account: c.reference.Account(r, &plan), inService: inService(p, r)}
	for y := range r.Record.Years {
		months := r.Record.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
		missed := p.Target.Missed(months)
		out.missed = append(out.missed, missed)
		if missed && p.Target.Beyond(months) == 0 {
			out.waitedAlone++
		}
		for i := range months {
			m := &months[i]
			out.fed += m.Feed.Dry
			out.untreated += m.Untreated()
			out.contract += m.Holding.ContractDry
			out.over += m.Air.HoursOver
		}
	}
	return out, nil
}

// inService returns when each step of the case took effect, if it did within the
// years reported.
func inService(p *facilityfile.Planning, r *study.Result) []float64 {
	out := make([]float64, len(r.Case.Steps))
	for i := range out {
		out[i] = math.NaN()
	}
	for _, t := range costs.Steps(p, r) {
		if !t.Committed && t.InService < float64(len(r.Record.Years)) {
			out[t.Place] = t.InService
		}
	}
	return out
}
