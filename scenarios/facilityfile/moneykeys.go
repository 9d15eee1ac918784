package facilityfile

import (
	"loamcast/scenarios/money"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// What a yearly rate of money may be, and the most that is paid, at once and a
// year, USD.
const (
	leastRate, mostRate = -0.1, 0.5
	mostMoney           = 1e10
	leastMissing        = 1e-3 // USD/kg; who has no price leaves it out
)

var ratesRows = []row[money.Rates]{
	{Key{Path: "prices_of", Words: "year on whose first day these prices hold", Low: firstYear, High: lastYear, Default: elseAs("the year of start", ""), Example: "2027", UsedBy: ForPlanning},
		whole(func(r *money.Rates) *int { return &r.Stated })},
	{Key{Path: "discount", Words: "what money loses worth in a year", Dimension: units.AnnualRate, Low: leastRate, High: mostRate,
		Usual: &Usual{0, 0.12, "what utilities borrow at, common practice, no source"}, Uncertain: &Uncertainty{Name: "discount rate",
			Set: func(p Parts, v float64) { p.Economy.Rates.Discount = v }}, Example: "5 %/year", UsedBy: ForPlanning},
		number(func(r *money.Rates) *float64 { return &r.Discount })},
	{Key{Path: "discount_kind", Words: "nominal, or real: above inflation", Choices: []string{"nominal", "real"}, UsedBy: ForPlanning},
		chosen(func(r *money.Rates, word string) { r.Real = word == "real" })},
	{Key{Path: "inflation", Words: "general rise of prices", Dimension: units.AnnualRate, Low: leastRate, High: mostRate, Example: "2.5 %/year", UsedBy: ForPlanning},
		number(func(r *money.Rates) *float64 { return &r.Escalation })},
	{Key{Path: "paid", Words: "when running costs count", Choices: []string{"mid year", "end of year"}, Default: elseAs("mid year", "common practice, no source"), UsedBy: ForPlanning},
		chosen(func(r *money.Rates, word string) {
			r.Timing = money.MidYear
			if word == "end of year" {
				r.Timing = money.EndOfYear
			}
		})},
}

var priceRows = []row[Economy]{
	{Key{Path: "labour", Words: "of an hour of work", Dimension: units.MoneyPerHour, Low: 0, High: 10_000, Uncertain: instead("price of labour"), Example: "42 USD/h", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Labour.Amount })},
	{Key{Path: "power", Words: "of electricity", Dimension: units.MoneyPerEnergy, Low: 0, High: 100.0 / secondsPerHour, Uncertain: instead("price of power"), Example: "0.11 USD/kWh", UsedBy: ForPlanning},
		scaled(secondsPerHour, 1, func(e *Economy) *float64 { return &e.Prices.Power.Amount })},
	{Key{Path: "loader_fuel", Words: "that a loader burns while it works", Dimension: units.VolumePerTime, Low: 1e-4 * perHour, High: 10 * perHour, Default: elseAs("none", ""), Example: "4 gal/h", UsedBy: ForPlanning},
		scaled(1, 24, func(e *Economy) *float64 { return &e.LoaderFuel })},
	{Key{Path: "truck_fuel", Words: "that a truck burns while it moves a vessel; with yard.trucks", Dimension: units.VolumePerTime, Low: 1e-4 * perHour, High: 10 * perHour, Default: elseAs("none", ""), Example: "3 gal/h", UsedBy: ForPlanning},
		scaled(1, 24, func(e *Economy) *float64 { return &e.TruckFuel })},
	{Key{Path: "tipping", Words: "hauling and tipping of what is diverted, wet", Dimension: units.MoneyPerMass, Low: 0, High: 100, Uncertain: instead("tipping fee"), Example: "98 USD/short ton", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Tipping.Amount })},
	{Key{Path: "missing", Words: "missing the target: dry solids that leave untreated beyond what it allows, on top of tipping", Dimension: units.MoneyPerMass, Low: leastMissing, High: 100,
		Default: elseAs("none; then regret is over what keeps the target", ""), Uncertain: instead("price of missing the target"), Example: "400 USD/short ton", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Missing.Amount })},
	{Key{Path: "sampling", Words: "of each sample that 40 CFR 503.16 asks for", Dimension: units.Money, Low: 0, High: 1e7, Default: orElse(0, ""), Example: "1,200 USD", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Sampling.Amount })},
	{Key{Path: "product", Words: "received for product, or twelve of them; less than 0 if you pay", Dimension: units.MoneyPerVolume, Low: -10_000, High: 10_000, Default: orElse(0, ""), Example: "4 USD/yd3", UsedBy: ForPlanning,
		Uncertain: added("price of product", units.MoneyPerVolume, -20_000, 20_000, func(p Parts, v float64) { addTo(&p.Economy.ProductPrice, v) })},
		monthly(func(e *Economy) *[12]float64 { return &e.ProductPrice })},
	{Key{Path: "overhead", Words: "whatever the plant does", Dimension: units.MoneyPerTime, Low: 0, High: mostMoney / calendar.DaysPerYear, Default: orElse(0, ""), Example: "65,000 USD/year", UsedBy: ForPlanning},
		scaled(calendar.DaysPerYear, 1, func(e *Economy) *float64 { return &e.Overhead })},
}

// fuelRows are needed where something burns fuel.
var fuelRows = []row[Economy]{
	{Key{Path: "fuel", Words: "of fuel", Dimension: units.MoneyPerVolume, Low: 0, High: 1e6, When: "with loader_fuel or truck_fuel", Uncertain: instead("price of fuel"), Example: "4.20 USD/gal", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Fuel.Amount })},
}

// carbonRows price what power and fuel give off. The factors are from memory: of power,
// grids of little and of much coal; of fuel, the carbon of diesel, 2.68 kg of CO2 a
// litre, which with what its supply gives off comes to some 3.2.
var carbonRows = []row[Economy]{
	{Key{Path: "price", Words: "of CO2, and of what warms as much, given off for power and fuel; what solids give off as they decay is not priced", Dimension: units.MoneyPerMass,
		Low: 0, High: 100, Uncertain: instead("price of carbon"), Example: "60 USD/t", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.Carbon.Amount })},
	{Key{Path: "power", Words: "given off for electricity", Dimension: units.MassPerEnergy, Low: 0, High: 3.0 / secondsPerHour,
		Usual: &Usual{0.02 / secondsPerHour, 1.0 / secondsPerHour, "grids, from memory"}, Default: orElse(0.4/secondsPerHour, "a grid of gas and some coal, from memory"), Example: "0.4 kg/kWh", UsedBy: ForPlanning},
		scaled(secondsPerHour, 1, func(e *Economy) *float64 { return &e.Prices.CarbonOfPower })},
	{Key{Path: "fuel", Words: "given off by fuel", Dimension: units.MassPerLiquid, Low: 0, High: 10_000,
		Usual: &Usual{2300, 3500, "petrol to diesel with its supply, from memory"}, Default: orElse(2700, "diesel, from memory"), Example: "2.7 kg/L", UsedBy: ForPlanning},
		number(func(e *Economy) *float64 { return &e.Prices.CarbonOfFuel })},
}

// capitalInput is no key: what is added to the cost of every step, as a part of it.
var capitalInput = Key{Path: "money.capital", Kind: Unwritten, Words: "what is built costs so much more, as a part of its cost", UsedBy: ForPlanning,
	Uncertain: added("cost of what is built", units.Fraction, -0.9, 10, func(p Parts, v float64) { p.Economy.CapitalOver = v })}

// rises are the rates at which prices rise otherwise than inflation.
type rises struct {
	*money.Prices
	capital float64 // of what is built
}

func rise(path, words string, at func(*rises) *float64) row[rises] {
	return row[rises]{Key{Path: path, Words: words, Dimension: units.AnnualRate, Low: leastRate, High: mostRate, Default: elseAs("inflation", ""), Example: "3 %/year", UsedBy: ForPlanning}, number(at)}
}

var escalationRows = []row[rises]{
	rise("labour", "rise of the price of labour", func(r *rises) *float64 { return &r.Labour.Escalation }),
	rise("power", "rise of the price of electricity", func(r *rises) *float64 { return &r.Power.Escalation }),
	rise("fuel", "rise of the price of fuel", func(r *rises) *float64 { return &r.Fuel.Escalation }),
	rise("carbon", "rise of the price of carbon", func(r *rises) *float64 { return &r.Carbon.Escalation }),
	rise("chips", "rise of the price of chips", func(r *rises) *float64 { return &r.Chips.Escalation }),
	rise("tipping", "rise of the tipping fee", func(r *rises) *float64 { return &r.Tipping.Escalation }),
	rise("missing", "rise of the price of missing the target", func(r *rises) *float64 { return &r.Missing.Escalation }),
	rise("sampling", "rise of the price of samples", func(r *rises) *float64 { return &r.Sampling.Escalation }),
	rise("product", "rise of the price of product", func(r *rises) *float64 { return &r.Product.Escalation }),
	rise("capital", "rise of what is built", func(r *rises) *float64 { return &r.capital }),
}

// usualLife of what is built, years: common practice, no source.
const usualLife = 20

// assetRows are what a change costs.
var assetRows = []row[money.Asset]{
	{Key{Path: "cost", Words: "what it costs to build", Dimension: units.Money, Low: 0, High: mostMoney, Default: orElse(0, ""), Example: "420,000 USD", UsedBy: ForPlanning},
		number(func(a *money.Asset) *float64 { return &a.Cost.Amount })},
	{Key{Path: "life", Words: "years until it is built anew", Dimension: units.Duration, Low: calendar.SecondsPerYear, High: 100 * calendar.SecondsPerYear,
		Default: orElse(usualLife*calendar.SecondsPerYear, "common practice, no source"), UsedBy: ForPlanning},
		scaled(1, calendar.SecondsPerYear, func(a *money.Asset) *float64 { return &a.Life })},
	{Key{Path: "salvage", Words: "part of the cost that it brings at its end", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(0, assumption), Example: "5 %", UsedBy: ForPlanning},
		number(func(a *money.Asset) *float64 { return &a.SalvageShare })},
	{Key{Path: "upkeep", Words: "part of the cost for each year", Dimension: units.AnnualRate, Low: 0, High: 0.5, Default: orElse(0, assumption), Example: "1.5 %/year", UsedBy: ForPlanning},
		number(func(a *money.Asset) *float64 { return &a.Maintenance })},
	{Key{Path: "running", Words: "beside labour, power and the like", Dimension: units.MoneyPerTime, Low: -mostMoney / calendar.DaysPerYear, High: mostMoney / calendar.DaysPerYear, Default: orElse(0, ""), Example: "6,000 USD/year", UsedBy: ForPlanning},
		scaled(calendar.DaysPerYear, 1, func(a *money.Asset) *float64 { return &a.Running.Amount })},
}
