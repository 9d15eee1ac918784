package facilityfile

import (
	"loamcast/scenarios/money"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

const secondsPerHour = 3600 // kJ in a kWh, too

// money reads what things cost and how money loses worth.
func (r *reader) money(design MixDesign) {
	m := r.root.MapIf("money")
	e := &r.p.Economy
	r.p.Priced = m.Present()
	if !m.Present() {
		return
	}
	e.Rates = r.rates(m)
	// Whatever the file does not say rises with inflation.
	all := e.Rates.General(0)
	e.Prices = money.Prices{Labour: all, Power: all, Fuel: all, Carbon: all, Chips: all, Tipping: all, Missing: all, Sampling: all, Product: all}
	e.Prices.Chips.Amount = design.ChipsPrice
	read(m, priceRows, e)
	r.missingPriced = m.Has("missing")
	r.fuel(m)
	r.carbon(m)
	rising := rises{&e.Prices, all.Escalation}
	rise := m.MapIf("escalation")
	read(rise, escalationRows, &rising)
	if rise.Has("missing") && !m.Has("missing") {
		rise.Error("missing", "missing the target has no price that could rise", "add money: {missing: 400 USD/short ton}, or remove this line")
	}
	if rise.Has("carbon") && !m.Has("carbon") {
		rise.Error("carbon", "carbon has no price that could rise", "add money: {carbon: {price: 60 USD/t}}, or remove this line")
	}
	r.capitalRise = rising.capital
	switch chips := r.group("chips"); {
	case design.Priced || !chips.Good("sources"):
	case chips.Has("sources"):
		chips.Error("sources", "the money section needs the price of every source", `add a price to each, such as "price: 9 USD/yd3"`)
	case len(design.Amendments) == 0:
		r.group("chips").Error("price", "the money section needs the price of chips", `add a line such as "price: 9 USD/yd3"`)
	}
	r.powered(m)
}

// rates reads in which year's money prices are written, and what becomes of it.
func (r *reader) rates(m *yamlfile.Map) money.Rates {
	start := r.m.Start
	rates := money.Rates{Stated: start.Year, Start: float64(start.Year)}
	read(m, ratesRows, &rates)
	if r.root.Good("start") {
		january := calendar.Date{Year: start.Year, Month: 1, Day: 1}
		rates.Start += float64(january.DaysUntil(start)) / float64(january.DaysUntil(january.AddYears(1)))
	}
	return rates
}

// fuel reads the price of fuel where something burns it.
func (r *reader) fuel(m *yamlfile.Map) {
	if m.Has("truck_fuel") && m.Good("truck_fuel") && r.root.Good("yard") && !r.yardGroup.Has("trucks") {
		m.Error("truck_fuel", "the hours of trucks count only where their number is written", "add yard: {trucks: 1, move: 25 min}, or remove this line")
	}
	switch burnt := m.Has("loader_fuel") || m.Has("truck_fuel"); {
	case burnt:
		read(m, fuelRows, &r.p.Economy)
	case m.Has("fuel"):
		m.Error("fuel", "nothing burns it", "add a line such as loader_fuel: 4 gal/h")
	}
}

// carbon reads what is paid for what power and fuel give off.
func (r *reader) carbon(m *yamlfile.Map) {
	c := m.MapIf("carbon")
	r.carbonPriced = c.Present()
	if !c.Present() {
		return
	}
	read(c, carbonRows, &r.p.Economy)
	if c.Has("fuel") && !m.Has("loader_fuel") && !m.Has("truck_fuel") {
		c.Error("fuel", "nothing burns it", "add a line such as loader_fuel: 4 gal/h to money, or remove this line")
	}
}

// powered warns of machines whose energy has a price but is not known.
func (r *reader) powered(m *yamlfile.Map) {
	for _, machine := range []struct{ group, name string }{{"mix", "the mixer"}, {"screen", "the screen"}} {
		if g := r.group(machine.group); m.Good("power") && g.Present() && !g.Has("power") {
			m.Warn("power", "the energy of "+machine.name+" costs nothing, since its power is not known", "add "+machine.group+".power")
		}
	}
}
