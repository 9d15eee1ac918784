package expand

import (
	"context"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

const (
	// probes is how many replications of the first year tell what a step changes in
	// the running of the plant. They share their luck, so that few are enough for
	// screening.
	probes = 4
)

// probe is what the first year shows of the plant with a step, in means.
type probe struct {
	use   money.Use // Labour is per year where crews are on shift, the rest per kg dry treated
	needs plant.Needs
}

// probed is what one replication adds to a probe.
type probed struct {
	use     money.Use
	treated float64 // kg dry
	months  []plant.Month
	prices  money.Prices
}

// probe simulates the first year with the steps given, uncertain inputs as they
// are in the file.
func (e *expansion) probe(ctx context.Context, steps []facilityfile.Step) (probe, error) {
	c := study.Case{Growth: e.growths.main(), Steps: steps, Years: 1, Expected: true}
	runs, err := study.Each(ctx, e.study, study.Runs(&c, 0, probes), func(r *study.Result) (probed, error) {
		plan, err := costs.Plan(&e.file.Planning, r)
		if err != nil {
			return probed{}, err
		}
		out := probed{use: plan.Years[0], months: r.Record.Months, prices: plan.Prices}
		out.use.Amendments = 0 // those used: what is bought in a year depends on when the store was filled
		for i := range out.months {
			m := &out.months[i]
			out.treated += m.Feed.Dry - m.Untreated() - m.Holding.ContractDry
			out.use.Amendments += costs.AmendmentsUsed(m, &r.Economy)
		}
		out.use.Chips = costs.ChipsUsed(out.months, &r.Economy)
		return out, nil
	}, nil)
	if err != nil {
		return probe{}, err
	}
	e.prices = runs[0].prices
	return e.mean(runs), nil
}

// mean puts replications together. What is hauled away is left out: plans that
// keep the target haul next to nothing, and a plant that is short in its first
// year would make every step look as if it saved the tipping.
func (e *expansion) mean(runs []probed) probe {
	var u money.Use
	var months []plant.Month
	treated := 0.0
	for _, r := range runs {
		u.Labour += r.use.Labour
		u.Power += r.use.Power
		u.Fuel += r.use.Fuel
		u.Chips += r.use.Chips
		u.Amendments += r.use.Amendments
		u.Product += r.use.Product
		treated += r.treated
		months = append(months, r.months...)
	}
	per := 1 / math.Max(treated, 1)
	labour := per
	if e.onShift() {
		labour = 1 / float64(len(runs))
	}
	return probe{
		use:   money.Use{Labour: u.Labour * labour, Power: u.Power * per, Fuel: u.Fuel * per, Chips: u.Chips * per, Amendments: u.Amendments * per, Product: u.Product * per},
		needs: plant.NeedsOf(months),
	}
}

// onShift reports whether the hours of operators are paid by the shift.
func (e *expansion) onShift() bool { return e.file.Model.Yard.Operators.Count > 0 }

// stepCosts returns, by the year from whose start a step is in service, what it
// costs with what it changes in the running of the plant from then on.
func (e *expansion) stepCosts(step facilityfile.Step, without, with probe) []float64 {
	out := make([]float64, e.years)
	running := 0.0
	for y := e.years - 1; y >= 0; y-- {
		running += e.useWorth(with.use, y) - e.useWorth(without.use, y)
		out[y] = running + e.assetWorth(step, y)
	}
	return out
}

// assetWorth is the present worth of what a step costs by itself, in service from
// the start of a year.
func (e *expansion) assetWorth(step facilityfile.Step, year int) float64 {
	a := step.Asset
	if a.Life == 0 {
		a.Life = math.Inf(1) // as in package costs
	}
	a.Year = float64(year)
	a.Lead = a.Year - e.model.Start.YearsUntil(step.Lead.Before(e.model.Start.AddYears(year)))
	plan := money.Plan{Rates: e.rates(), Assets: []money.Asset{a}, Years: make([]money.Use, e.years)}
	return -plan.Rates.PresentWorth(plan.Flows())
}

// useWorth is the present worth of running the plant for a year.
func (e *expansion) useWorth(u money.Use, year int) float64 {
	fed := e.fed[year]
	labour := fed
	if e.onShift() {
		labour = 1
	}
	plan := money.Plan{Rates: e.rates(), Prices: e.prices, Years: make([]money.Use, e.years)}
	plan.Years[year] = money.Use{Labour: u.Labour * labour, Power: u.Power * fed, Fuel: u.Fuel * fed, Chips: u.Chips * fed, Amendments: u.Amendments * fed, Product: u.Product * fed}
	return -plan.Rates.PresentWorth(plan.Flows())
}

func (e *expansion) rates() money.Rates {
	rates := e.file.Planning.Economy.Rates
	if e.discount != nil {
		rates.Discount = *e.discount
	}
	return rates
}

// fedByYear returns the dry solids that come in by year, kg, as the file expects
// them.
func fedByYear(p *plant.Plant) []float64 {
	out := make([]float64, p.Years)
	for y := range out {
		const middle = 0.5
		out[y] = calendar.DaysPerYear * (p.Feed.Base*p.Feed.Growth.Factor(float64(y)+middle) + hauled(p))
	}
	return out
}

// hauled returns the solids that are hauled in, kg dry per day in the mean of a year.
func hauled(p *plant.Plant) float64 {
	sum := 0.0
	for _, f := range p.Feedstocks {
		for _, perDay := range f.PerDay {
			sum += perDay / float64(len(f.PerDay))
		}
	}
	return sum
}

// busiest returns what a day of the busiest month brings in the first year, over
// the mean.
func busiest(p *plant.Plant) float64 {
	need := p.StaticNeed(0)
	return need.PeakMonth / need.Average
}
