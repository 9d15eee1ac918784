package facilityfile

import (
	"loamcast/scenarios/money"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

const (
	secondsPerHour = 3600   // kJ in a kWh, too
	daysPerYear    = 365.25 // as the unit year has them
)

// rateRange is what a yearly rate of money may be.
var rateRange = yamlfile.Between(-0.1, 0.5)

// money reads what things cost and how money loses worth.
func (r *reader) money(design MixDesign) {
	m := r.root.MapIf("money")
	e := &r.p.Economy
	r.p.Priced = m.Present()
	if !m.Present() {
		return
	}
	e.Rates = r.rates(m)
	rise := m.MapIf("escalation")
	price := func(key string, amount float64) money.Price {
		return money.Price{Amount: amount, Escalation: rise.QuantityOr(key, units.AnnualRate, e.Rates.Escalation, rateRange)}
	}
	e.Prices = money.Prices{
		Labour:   price("labour", m.Quantity("labour", units.MoneyPerHour, yamlfile.NonNegative())),
		Power:    price("power", secondsPerHour*m.Quantity("power", units.MoneyPerEnergy, yamlfile.NonNegative())),
		Fuel:     price("fuel", r.fuel(m)),
		Chips:    price("chips", design.ChipsPrice),
		Tipping:  price("tipping", m.Quantity("tipping", units.MoneyPerMass, yamlfile.NonNegative())),
		Sampling: price("sampling", m.QuantityOr("sampling", units.Money, 0, yamlfile.NonNegative())),
		Product:  price("product", 0),
	}
	r.capitalRise = price("capital", 0).Escalation
	e.ProductPrice = m.MonthlyOr("product", units.MoneyPerVolume, [12]float64{})
	e.Overhead = daysPerYear * m.QuantityOr("overhead", units.MoneyPerTime, 0, yamlfile.NonNegative())
	if !design.Priced && len(design.Amendments) == 0 {
		r.group("chips").Error("price", "the money section needs the price of chips", `add a line such as "price: 9 USD/yd3"`)
	}
	r.powered(m)
}

// rates reads in which year's money prices are written, and what becomes of it.
func (r *reader) rates(m *yamlfile.Map) money.Rates {
	start := r.m.Start
	rates := money.Rates{
		Stated:     m.IntOr("prices_of", start.Year, yamlfile.Between(firstYear, lastYear)),
		Start:      float64(start.Year),
		Discount:   m.Quantity("discount", units.AnnualRate, rateRange, yamlfile.Usually(0, 0.12, "what utilities borrow at, common practice, no source")),
		Real:       m.OneOf("discount_kind", "nominal", "real") == "real",
		Escalation: m.Quantity("inflation", units.AnnualRate, rateRange),
		Timing:     money.MidYear,
	}
	if r.root.Good("start") {
		january := calendar.Date{Year: start.Year, Month: 1, Day: 1}
		rates.Start += float64(january.DaysUntil(start)) / float64(january.DaysUntil(january.AddYears(1)))
	}
	if m.OneOfOr("paid", "mid year", "mid year", "end of year") == "end of year" {
		rates.Timing = money.EndOfYear
	}
	return rates
}

// fuel reads the price of fuel, USD/m3, and how much of it machines burn.
func (r *reader) fuel(m *yamlfile.Map) float64 {
	perHour := func(key string) float64 {
		return m.QuantityOr(key, units.VolumePerTime, 0, yamlfile.Positive()) / 24
	}
	e := &r.p.Economy
	e.LoaderFuel, e.TruckFuel = perHour("loader_fuel"), perHour("truck_fuel")
	if m.Has("truck_fuel") && m.Good("truck_fuel") && r.root.Good("yard") && !r.yardGroup.Has("trucks") {
		m.Error("truck_fuel", "the hours of trucks count only where their number is written", "add yard: {trucks: 1, move: 25 min}, or remove this line")
	}
	if m.Has("loader_fuel") || m.Has("truck_fuel") {
		return m.Quantity("fuel", units.MoneyPerVolume, yamlfile.NonNegative())
	}
	if m.Has("fuel") {
		m.Error("fuel", "nothing burns it", "add a line such as loader_fuel: 4 gal/h")
	}
	return m.QuantityOr("fuel", units.MoneyPerVolume, 0, yamlfile.NonNegative())
}

// powered warns of machines whose energy has a price but is not known.
func (r *reader) powered(m *yamlfile.Map) {
	for _, machine := range []struct{ group, name string }{{"mix", "the mixer"}, {"screen", "the screen"}} {
		if g := r.group(machine.group); m.Good("power") && g.Present() && !g.Has("power") {
			m.Warn("power", "the energy of "+machine.name+" costs nothing, since its power is not known", "add "+machine.group+".power")
		}
	}
}
