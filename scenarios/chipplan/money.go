package chipplan

import (
	"math"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

// priceOf returns the price of chips that the file states.
func priceOf(f *facilityfile.File) Price {
	e, several := &f.Planning.Economy, len(f.Model.Chips.Sources) > 0
	switch {
	case f.Planning.Priced:
		return Price{Known: true, OfFirst: several, Amount: e.Prices.Chips.Amount, Escalates: true,
			Stated: e.Rates.Stated, Escalation: e.Prices.Chips.Escalation}
	case f.Mix.Priced:
		return Price{Known: true, OfFirst: several, Amount: f.Mix.ChipsPrice}
	}
	return Price{}
}

// spend returns what chips cost when they are delivered, in money of that day,
// USD; years are those since the start of the file. Without a section on money
// the price stays as it is.
func (p *planner) spend(e *facilityfile.Economy, volume, years float64) float64 {
	if !p.price.Escalates {
		return p.price.Amount * volume
	}
	price := e.Prices.Chips
	return e.Rates.Nominal(money.Flow{Amount: price.Amount * volume, At: years, Escalation: price.Escalation})
}

// costModel says what rules are compared by.
func (p *planner) costModel() CostModel {
	if !p.price.Escalates {
		return CostModel{}
	}
	return CostModel{
		InMoney:  true,
		Capital:  p.price.Amount * p.study.File.Planning.Economy.Rates.NominalDiscount(),
		Ordering: p.o.PerOrder,
	}
}

// budget is the figure for the book of what is spent, and the chance that more is.
func budget(spread answer.Spread, spent *stats.Sample) (amount float64, passing stats.Interval) {
	amount = figure(spread.P90)
	return amount, fiscal.Passing(spent, amount)
}

// figure rounds an amount up to one that people write into a budget: steps of
// 1, 2 or 5 of about a hundredth of it.
func figure(amount float64) float64 {
	if amount <= 0 {
		return 0
	}
	const parts = 100
	power := math.Pow(10, math.Floor(math.Log10(amount/parts)))
	step := power
	for _, m := range []float64{2, 5, 10} {
		if step < amount/parts {
			step = m * power
		}
	}
	return math.Ceil(amount/step-1e-9) * step
}
