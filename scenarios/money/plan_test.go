package money

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// small is a plan of two years whose cost can be worked out by hand.
func small() Plan {
	use := Use{
		Labour: 1000, Power: 50_000, Fuel: 10, Chips: 2000, Tipping: 100_000, Missing: 20_000, Sampling: 4, Product: 1500, Dry: 500_000,
	}
	return Plan{
		Rates: plain(0.10),
		Prices: Prices{
			Labour: Price{Amount: 40}, Power: Price{Amount: 0.12}, Fuel: Price{Amount: 1000}, Chips: Price{Amount: 15},
			Carbon: Price{Amount: 0.06}, CarbonOfPower: 0.4, CarbonOfFuel: 2700,
			Tipping: Price{Amount: 0.06}, Missing: Price{Amount: 0.4}, Sampling: Price{Amount: 900}, Product: Price{Amount: 12},
		},
		Assets: []Asset{{
			Name: "vessels", Cost: Price{Amount: 242_000}, Life: 4, Maintenance: 0.05, Running: Price{Amount: 2000},
		}},
		Years: []Use{use, use},
	}
}

// Shows the cost of a small plan, part by part, worked out by hand at 10 % with
// payments at year ends, of carbon 50,000·0.4 + 10·2,700 = 47,000 kg: a level yearly amount is worth 1/1.1 + 1/1.21 =
// 1.735537 times as much, and the vessels, half worn after two years, give back
// 121,000/1.21 = 100,000.
func TestPlanByHand(t *testing.T) {
	p := small()
	const level = 1/1.1 + 1/1.21
	want := Amounts{
		Capital: 242_000, Salvage: -100_000,
		Maintenance: 12_100 * level, Running: 2000 * level,
		Labour: 40_000 * level, Power: 6000 * level, Fuel: 10_000 * level, Carbon: (20_000 + 27_000) * 0.06 * level, Chips: 30_000 * level,
		Tipping: 6000 * level, Missing: 8000 * level, Sampling: 3600 * level, Sales: -18_000 * level,
	}
	c := p.Cost()
	for _, part := range Parts() {
		nearly(t, part.String(), c.ByPart[part], want[part])
	}
	present := 142_000 + (99_700+2820)*level
	nearly(t, "present", c.Present, present)
	nearly(t, "annual", c.Annual, present/level)
	nearly(t, "per dry mass", c.PerDry, present/level/500_000)
}

// Shows the year-by-year account in money of the day: prices that rise by 10 %
// from the start of the plan, paid at the end of each year.
func TestByYear(t *testing.T) {
	p := small()
	p.Rates.Escalation = 0.10
	p.Prices.Chips = p.Rates.General(15)
	account := byYear(p.Flows(), 2, p.Rates.Nominal)
	nearly(t, "chips, first year", account[0][Chips], -33_000)
	nearly(t, "chips, second year", account[1][Chips], -36_300)
	nearly(t, "labour does not rise", account[1][Labour], -40_000)
	nearly(t, "first year", account[0].Total(), -242_000-12_100-2000-40_000-6000-10_000-2820-33_000-6000-8000-3600+18_000)
	nearly(t, "constant money", byYear(p.Flows(), 2, p.Rates.Constant)[1][Chips], -30_000)
}

// Shows for any plan that the three ways to state its cost agree: the annual
// amount over all years, and the price per dry mass of all years, have its
// present worth; that years add up to flows; and that the parts do.
func TestCostIsOneCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		c, r, flows := p.Cost(), p.Rates, p.Flows()
		tol := 1e-9 * (1 + gross(flows, r))
		near(t, "parts", c.ByPart.Total(), c.Present, tol)
		near(t, "flows", presentWorth(flows, r.Constant, r.RealDiscount()), -c.Present, tol)

		annual, perDry, sum := 0.0, 0.0, 0.0
		for year, u := range p.Years {
			at := r.Timing.Instant(year)
			annual += c.Annual * math.Pow(1+r.RealDiscount(), -at)
			perDry += c.PerDry * u.Dry * math.Pow(1+r.RealDiscount(), -at)
		}
		near(t, "annual", annual, c.Present, tol)
		near(t, "per dry mass", perDry, c.Present, tol)

		for _, y := range byYear(flows, len(p.Years), r.Nominal) {
			sum += y.Total()
		}
		near(t, "years", sum, presentWorth(flows, r.Nominal, 0), 1e-9*(1+presentWorth(flows, func(f Flow) float64 { return math.Abs(r.Nominal(f)) }, 0)))
	})
}

// Shows that twice the amounts at the same rates cost twice as much.
func TestCostIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := anyPlan(t)
		once := p.Cost().Present
		twice := p
		twice.Assets = append(append([]Asset{}, p.Assets...), p.Assets...)
		twice.Years = append([]Use{}, p.Years...)
		for i := range twice.Years {
			u := &twice.Years[i]
			for _, q := range []*float64{&u.Labour, &u.Power, &u.Fuel, &u.Chips, &u.Tipping, &u.Missing, &u.Sampling, &u.Product} {
				*q *= 2
			}
		}
		near(t, "present worth", twice.Cost().Present, 2*once, 1e-9*(1+gross(p.Flows(), p.Rates)))
	})
}

// Shows that every price, quantity, rate and property of an asset moves the cost
// in the direction that is obvious.
func TestEveryInputMatters(t *testing.T) {
	base := small()
	base.Rates = Rates{Stated: 2026, Start: 2027, Discount: 0.08, Escalation: 0.02}
	base.Assets[0].SalvageShare, base.Assets[0].Year, base.Assets[0].Lead = 0.1, 1, 0.5
	before := base.Cost().Present
	const up, down = 1, -1
	for _, c := range []struct {
		name   string
		change func(*Plan)
		want   float64
	}{
		{"stated year", func(p *Plan) { p.Rates.Stated, p.Prices.Chips.Escalation = 2020, 0.09 }, up},
		{"start", func(p *Plan) { p.Rates.Start = 2029 }, down}, // most prices lag behind the general rise
		{"discount", func(p *Plan) { p.Rates.Discount = 0.12 }, down},
		{"discount is real", func(p *Plan) { p.Rates.Real = true }, down},
		{"escalation", func(p *Plan) { p.Rates.Escalation = 0.05 }, down}, // the money of the day is worth less in stated money
		{"timing", func(p *Plan) { p.Rates.Timing = MidYear }, up},
		{"labour", func(p *Plan) { p.Prices.Labour.Amount++ }, up},
		{"power", func(p *Plan) { p.Prices.Power.Amount++ }, up},
		{"fuel", func(p *Plan) { p.Prices.Fuel.Amount++ }, up},
		{"carbon", func(p *Plan) { p.Prices.Carbon.Amount++ }, up},
		{"carbon of power", func(p *Plan) { p.Prices.CarbonOfPower++ }, up},
		{"carbon of fuel", func(p *Plan) { p.Prices.CarbonOfFuel++ }, up},
		{"chips", func(p *Plan) { p.Prices.Chips.Amount++ }, up},
		{"rise of chips", func(p *Plan) { p.Prices.Chips.Escalation = 0.05 }, up},
		{"tipping", func(p *Plan) { p.Prices.Tipping.Amount++ }, up},
		{"missing", func(p *Plan) { p.Prices.Missing.Amount++ }, up},
		{"sampling", func(p *Plan) { p.Prices.Sampling.Amount++ }, up},
		{"product", func(p *Plan) { p.Prices.Product.Amount++ }, down},
		{"hours", func(p *Plan) { p.Years[1].Labour++ }, up},
		{"energy", func(p *Plan) { p.Years[1].Power++ }, up},
		{"fuel used", func(p *Plan) { p.Years[1].Fuel++ }, up},
		{"chips used", func(p *Plan) { p.Years[1].Chips++ }, up},
		{"hauled", func(p *Plan) { p.Years[1].Tipping++ }, up},
		{"beyond the target", func(p *Plan) { p.Years[1].Missing++ }, up},
		{"samples", func(p *Plan) { p.Years[1].Sampling++ }, up},
		{"sold", func(p *Plan) { p.Years[1].Product++ }, down},
		{"cost of asset", func(p *Plan) { p.Assets[0].Cost.Amount++ }, up},
		{"life", func(p *Plan) { p.Assets[0].Life++ }, down},
		{"year", func(p *Plan) { p.Assets[0].Year = 1.5 }, down},
		{"lead", func(p *Plan) { p.Assets[0].Lead = 1 }, up},
		{"salvage", func(p *Plan) { p.Assets[0].SalvageShare = 0.2 }, down},
		{"maintenance", func(p *Plan) { p.Assets[0].Maintenance = 0.06 }, up},
		{"running", func(p *Plan) { p.Assets[0].Running.Amount++ }, up},
	} {
		p := base
		p.Assets, p.Years = append([]Asset{}, base.Assets...), append([]Use{}, base.Years...)
		c.change(&p)
		if moved := p.Cost().Present - before; !(moved*c.want > 0) {
			t.Errorf("%s: cost moved by %g, want the sign of %g", c.name, moved, c.want)
		}
	}
	thinner := small()
	thinner.Years[0].Dry = 400_000
	if !(thinner.Cost().PerDry > small().Cost().PerDry) {
		t.Error("less dry solids do not raise the cost per dry mass")
	}
}

// Shows that every part has a name of its own.
func TestPartNames(t *testing.T) {
	seen := map[string]bool{}
	for _, p := range Parts() {
		if seen[p.String()] || strings.TrimSpace(p.String()) == "" {
			t.Errorf("part %d is called %q", int(p), p)
		}
		seen[p.String()] = true
	}
}
