package plant

import (
	"math"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
)

// contracts draws none for half of the facilities; to others they come with changes, too.
func (d draw) contracts(m *Model) {
	m.Contract = Contract{}
	if !d.yes("contracts") {
		return
	}
	if d.yes("one in force from the start") {
		m.Contract = d.contract(0)
	}
	for i := range m.Changes {
		if d.yes("another contract") {
			m.Changes[i].Contract = d.contract(i + 1)
		}
	}
}

func (d draw) contract(number int) Contract {
	c := Contract{Number: number, Notice: calendar.Span{Months: d.int("months of notice", 0, 1), Days: d.int("days of notice", 0, 20)}}
	c.MostPerMonth = d.one("most per month", 2_000, 20_000, 100_000, 1e6)
	c.MostPerDay = c.MostPerMonth * d.one("part of it on a day", 0.05, 0.3, 1)
	c.CallAt = d.between("call at", 0.05, 0.95)
	c.DownTo = c.CallAt * d.one("down to, of that", 0, 0.5, 0.9)
	return c
}

// contractsOf are the contracts of a model, by number.
func contractsOf(m *Model) map[int]Contract {
	out := map[int]Contract{}
	if m.Contract.On() {
		out[m.Contract.Number] = m.Contract
	}
	for _, c := range m.Changes {
		if c.Contract.On() {
			out[c.Contract.Number] = c.Contract
		}
	}
	return out
}

// hauledBy is what was hauled under each contract in all months, kg wet.
func hauledBy(rec *Record) map[int]float64 {
	out := map[int]float64{}
	for i := range rec.Months {
		for _, c := range rec.Months[i].Holding.Contracts {
			out[c.Number] += c.Wet
		}
	}
	return out
}

// usedUp reports whether a contract took all of its limit in some month.
func usedUp(m *Model, rec *Record) bool {
	for i := range rec.Months {
		for _, c := range rec.Months[i].Holding.Contracts {
			if c.Wet >= contractsOf(m)[c.Number].MostPerMonth*(1-1e-9) {
				return true
			}
		}
	}
	return false
}

// checkContracts checks that no contract of a plant took more than its limits, that the
// parts of each sum to what was hauled, and that what was hauled is on its path.
func checkContracts(t *rapid.T, p *Plant, rec *Record) {
	all := contractsOf(&p.Model)
	close := func(a, b float64) bool { return math.Abs(a-b) <= 1e-9*max(a, b, 1) }
	hauled := 0.0
	for i := range rec.Months {
		m := &rec.Months[i]
		dry, wet := 0.0, 0.0
		for _, c := range m.Holding.Contracts {
			limit := all[c.Number]
			if c.Wet > min(limit.MostPerMonth, limit.MostPerDay*m.Days)*(1+1e-9) {
				t.Errorf("month %d: contract %d took %g kg, over its limits %+v", i, c.Number, c.Wet, limit)
			}
			dry, wet = dry+c.Dry, wet+c.Wet
		}
		if !close(dry, m.Holding.ContractDry) || !close(wet, m.Holding.ContractWet) || wet < dry {
			t.Errorf("month %d: contracts took %g dry, %g wet; hauled were %g, %g", i, dry, wet, m.Holding.ContractDry, m.Holding.ContractWet)
		}
		hauled += wet
	}
	onPath := 0.0
	for i, path := range rec.Paths {
		if path.Flow == CakeContracted {
			for y := range rec.Years {
				onPath += rec.Years[y].Balance.Flows[i].Total
			}
		}
	}
	if !close(hauled, onPath) {
		t.Errorf("months hauled %g kg, the ledger has %g", hauled, onPath)
	}
}
