package costs

import (
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
)

// What a year uses and sells, by hand from the small record: twelve times a
// month; a loader hour takes 0.01 m3 of fuel and a truck hour 0.02; eleven months
// bring 40 · 3 USD and March takes 40 · 2; 300 t of dry feed ask for 4 samplings
// (290 to 1,500 t a year, 40 CFR 503.16 Table 1, read).
func TestUse(t *testing.T) {
	want := money.Use{
		Labour: 120, Power: 12 * 120, Fuel: 12 * (8*0.01 + 24*0.5*0.02), Chips: 600,
		Tipping: 1230, Sampling: 4, Product: 11*120 - 80, Dry: 300e3,
	}
	crewed := want
	crewed.Labour = 360
	for _, c := range []struct {
		name      string
		operators int
		want      money.Use
	}{
		{"operators never short: the hours of work", 0, want},
		{"operators counted: the hours of their shift", 2, crewed},
	} {
		r := smallResult()
		r.Plant.Yard.Operators.Count = c.operators
		for y, got := range mustPlan(t, &facilityfile.Planning{}, r).Years {
			for _, v := range []struct {
				what      string
				got, want float64
			}{
				{"labour", got.Labour, c.want.Labour}, {"power", got.Power, c.want.Power}, {"fuel", got.Fuel, c.want.Fuel},
				{"chips", got.Chips, c.want.Chips}, {"tipping", got.Tipping, c.want.Tipping}, {"sampling", got.Sampling, c.want.Sampling},
				{"product", got.Product, c.want.Product}, {"dry", got.Dry, c.want.Dry},
			} {
				if !near(v.got, v.want) {
					t.Errorf("%s, year %d: %s %g, want %g", c.name, y, v.what, v.got, v.want)
				}
			}
		}
	}
}

// Each part of the present worth, by hand at no discount: price times the use of
// two years, overhead among the running costs, sales as what they bring.
func TestCostByPart(t *testing.T) {
	cost := mustPlan(t, &facilityfile.Planning{}, smallResult()).Cost()
	want := money.Amounts{
		money.Running: 2 * 7000, money.Labour: 2 * 120 * 40, money.Power: 2 * 144, money.Fuel: 2 * 3840,
		money.Carbon: 2 * 0.05 * (1440*0.5 + 3.84*2500),
		money.Chips:  2 * 600 * 15, money.Tipping: 2 * 1230 * 0.05, money.Sampling: 2 * 4 * 500, money.Sales: -2 * 1240,
	}
	for _, part := range money.Parts() {
		if !near(cost.ByPart[part], want[part]) {
			t.Errorf("%s: %g USD, want %g", part, cost.ByPart[part], want[part])
		}
	}
	if !near(cost.PerDry, want.Total()/600e3) {
		t.Errorf("%g USD/kg dry, want %g", cost.PerDry, want.Total()/600e3)
	}
}

// A product that is hauled away all year is a cost, of 480 m3 at 2 USD a year.
func TestProductHauledAway(t *testing.T) {
	r := smallResult()
	for i := range r.Economy.ProductPrice {
		r.Economy.ProductPrice[i] = -2
	}
	if got := mustPlan(t, &facilityfile.Planning{}, r).Cost().ByPart[money.Sales]; !near(got, 2*480*2) {
		t.Errorf("sales are a cost of %g USD, want 1920", got)
	}
}

// A run of later years begins its plan later: with chips rising by 10 % a year,
// paid at year's end, the first year costs 10 % more than that of a run from the
// start.
func TestLaterYears(t *testing.T) {
	r := smallResult()
	r.Economy.Prices.Chips.Escalation = 0.1
	from := mustPlan(t, &facilityfile.Planning{}, r).Cost().ByPart[money.Chips]
	r.First = 1
	if got := mustPlan(t, &facilityfile.Planning{}, r).Cost().ByPart[money.Chips]; !near(got, 1.1*from) {
		t.Errorf("a year later: %g USD, want %g", got, 1.1*from)
	}
}

// What was drawn without a meaning is an error.
func TestPlanRefuses(t *testing.T) {
	r := smallResult()
	r.Economy.Rates.Discount = -1.5
	if _, err := Plan(&facilityfile.Planning{}, r); err == nil || !strings.Contains(err.Error(), "discount rate") {
		t.Errorf("discount below −100 %%: %v", err)
	}
	r = smallResult()
	r.Case.Steps = []facilityfile.Step{step("screen", 2028, time.July)}
	r.Case.Steps[0].Asset.SalvageShare = 2
	if _, err := Plan(&facilityfile.Planning{}, r); err == nil || !strings.Contains(err.Error(), "screen: salvage share") {
		t.Errorf("salvage above the cost: %v", err)
	}
}

// A step of 6,000 USD decided in July 2027 and in service a year later, that lasts
// two years and keeps nothing, is paid at once and half used up at the end of the
// two years: 3,000 USD remain to pay. Its upkeep of 2 % a year and 1,000 USD a year
// run for a year. If capital costs a quarter more than
// the file says, so do salvage and upkeep, which are shares of it.
func TestAssetOfAStep(t *testing.T) {
	s := step("vessel", 2027, time.July)
	s.Lead = calendar.Span{Months: 12}
	s.Asset = money.Asset{Cost: money.Price{Amount: 6000}, Life: 2, Maintenance: 0.02, Running: money.Price{Amount: 1000}}
	for _, c := range []struct {
		over float64
		want money.Amounts
	}{
		{0, money.Amounts{money.Capital: 6000, money.Salvage: -3000, money.Maintenance: 120, money.Running: 1000}},
		{0.25, money.Amounts{money.Capital: 7500, money.Salvage: -3750, money.Maintenance: 150, money.Running: 1000}},
	} {
		r := smallResult()
		r.Economy.CapitalOver = c.over
		r.Case.Steps = []facilityfile.Step{s}
		with := mustPlan(t, &facilityfile.Planning{}, r).Cost().ByPart
		r.Case.Steps = nil
		without := mustPlan(t, &facilityfile.Planning{}, r).Cost().ByPart
		for _, part := range money.Parts() {
			if !near(with[part]-without[part], c.want[part]) {
				t.Errorf("%s with capital %g over: %g USD, want %g", part, c.over, with[part]-without[part], c.want[part])
			}
		}
	}
}

// A step of the past in the file is sunk, but is replaced when it is worn out:
// one of 2021 that lasts five years was replaced in 2026 and is due again in
// 2031, beyond these two years, so that only its upkeep counts.
func TestSunkStep(t *testing.T) {
	s := step("old screen", 2021, time.July)
	s.Asset = money.Asset{Cost: money.Price{Amount: 1000}, Life: 5, Maintenance: 0.05}
	p := &facilityfile.Planning{Committed: []facilityfile.Step{s}}
	cost := mustPlan(t, p, smallResult()).Cost().ByPart
	if cost[money.Capital] != 0 || cost[money.Salvage] != 0 || !near(cost[money.Maintenance], 100) {
		t.Errorf("capital %g, salvage %g, maintenance %g; want 0, 0, 100", cost[money.Capital], cost[money.Salvage], cost[money.Maintenance])
	}
	p.Committed[0].Asset.Life = 4 // in service again from July 2025, due in July 2029, when all ends
	if got := mustPlan(t, p, smallResult()).Cost().ByPart[money.Capital]; got != 0 {
		t.Errorf("replaced at the end of the horizon for %g USD", got)
	}
	p.Committed[0].Asset.Life = 3.5 // due in July 2028
	if got := mustPlan(t, p, smallResult()).Cost().ByPart[money.Capital]; !near(got, 1000) {
		t.Errorf("replaced in 2028 for %g USD, want 1000", got)
	}
}

func step(name string, year int, month time.Month) facilityfile.Step {
	var s facilityfile.Step
	s.Name, s.Date = name, calendar.Date{Year: year, Month: month, Day: 1}
	s.Asset.Cost.Amount, s.Asset.Life = 1, math.Inf(1)
	return s
}
