package expand

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/money"
)

// A contract costs by what it hauls, and that depends on all else that is built: vessels
// leave it less to haul. So the program counts it by configuration and year, by what the
// years showed that were tried to find what the configuration carries. Of one that was
// not looked at yet it is at least what one hauls that has more, and nothing where none
// was: such a plan is proposed too early rather than too late, and then looked at. Whole
// runs tell what it costs.

// program is the search for configurations that last so long.
func (e *expansion) program(lasts []int, barred []bool) *program {
	p := &program{lattice: e.lattice, years: e.years, cost: e.cost, lasts: lasts, barred: barred}
	if e.contracted {
		p.yearly = e.haulingCosts()
	}
	return p
}

// haulingCosts are the present worths of what is hauled by contract, by configuration
// and year.
func (e *expansion) haulingCosts() [][]float64 {
	out := make([][]float64, e.size)
	for _, c := range e.bases {
		if e.found[c] != nil {
			out[c] = e.haulingCost(c)
		}
	}
	for c := range out {
		if out[c] != nil {
			continue
		}
		out[c] = make([]float64, e.years)
		for _, d := range e.bases {
			if e.found[d] == nil || !e.within(c, d) || e.contractsOf(c) != e.contractsOf(d) {
				continue
			}
			for y, cost := range out[d] {
				out[c][y] = max(out[c][y], cost)
			}
		}
	}
	return out
}

// contractsOf counts the contracts among the steps of a configuration.
func (e *expansion) contractsOf(config int) int {
	n := 0
	for i, s := range e.steps {
		if s.Contract.On() {
			n += e.count(config, i)
		}
	}
	return n
}

// hauledCost are the costs by year of a configuration, as the stages show that were found.
type hauledCost struct {
	stages []capability.Stage
	years  []float64
}

// haulingCost returns the costs by year of a configuration that was looked at.
func (e *expansion) haulingCost(config int) []float64 {
	stages := e.found[config]
	if known, ok := e.hauling[config]; ok && &known.stages[0] == &stages[0] {
		return known.years
	}
	price := func(m *plant.Month) float64 { return costs.Contracts(m, &e.file.Planning.Economy) }
	years := make([]float64, e.years)
	hauling := make([]*capability.Hauling, len(stages))
	for i, s := range stages {
		hauling[i] = s.Hauling(price)
	}
	plan := money.Plan{Rates: e.rates(), Prices: e.prices, Years: make([]money.Use, e.years)}
	for y := range years {
		in := 0
		for i, s := range stages {
			if s.After <= float64(y*capability.Quarters) {
				in = i
			}
		}
		if hauling[in] == nil {
			continue
		}
		usd := 0.0
		for i, g := range e.growths.places {
			usd += e.growths.weights[i] * hauling[in].Of(e.states.Demand(g), y)
		}
		plan.Years[y].Contract = usd
		years[y] = -plan.Rates.PresentWorth(plan.Flows())
		plan.Years[y].Contract = 0
	}
	e.hauling[config] = hauledCost{stages, years}
	return years
}
