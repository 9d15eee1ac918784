package costs

import (
	"fmt"
	"math"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
)

// Plan returns the money plan of a run under the file's planning p, which must be
// priced. Its years are those that the run reports, and its economy that of the
// run, with the prices that it drew.
//
// Product is sold at twelve prices, which package money does not know, so
// Use.Product is what it brings, USD in stated prices, at a price of 1. It is
// negative where product is hauled away at a fee.
//
// An error means that the economy drawn has no meaning, such as a discount rate
// below −100 %.
func Plan(p *facilityfile.Planning, r *study.Result) (money.Plan, error) {
	e := &r.Economy
	plan := money.Plan{Rates: e.Rates, Prices: e.Prices, Assets: assets(Steps(p, r), 1+e.CapitalOver)}
	plan.Rates.Start += float64(r.First)
	plan.Prices.Product.Amount = 1
	plan.Prices.Amendments = e.Rates.General(1)
	plan.Prices.Contract = money.Price{Amount: 1, Escalation: e.Prices.Tipping.Escalation}
	if e.Overhead != 0 {
		plan.Assets = append(plan.Assets, money.Asset{Name: "overhead", Life: math.Inf(1), Running: e.Rates.General(e.Overhead)})
	}
	plan.Years = uses(p.Target, r)
	return plan, check(plan)
}

// check reports the first rate or asset that has no meaning.
func check(plan money.Plan) error {
	if err := plan.Rates.Validate(); err != nil {
		return fmt.Errorf("money: %w", err)
	}
	for _, a := range plan.Assets {
		if err := a.Validate(); err != nil {
			return fmt.Errorf("money: %w", err)
		}
	}
	return nil
}
