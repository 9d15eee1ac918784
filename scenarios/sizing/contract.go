package sizing

import (
	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/sim/calendar"
)

// Contract is the contract that is in force at the end of a year. The zero value is none.
type Contract struct {
	plant.Contract
	Takes float64 // most, kg dry per day in the mean of a year
	// Room is for how many days what the year brings in its mean finds room above what is
	// held when the plant calls, if nothing is mixed meanwhile.
	Room float64
}

func contractOf(p *plant.Plant, on calendar.Date, brings float64) Contract {
	then := p.AsOf(on)
	c := Contract{Contract: then.Contract, Takes: then.ContractTakes()}
	if c.On() {
		c.Room = (1 - c.CallAt) * then.Holding.Capacity / brings
	}
	return c
}

// byContract sets what the contract takes beside what comes.
func (a *Answer) byContract() doc.Text {
	if !a.Hauls {
		return doc.Text{}
	}
	var parts []doc.Text
	ends := []*Year{&a.Years[0]}
	if last := &a.Years[len(a.Years)-1]; last != ends[0] {
		ends = append(ends, last)
	}
	for _, y := range ends {
		c := &y.Contract
		if !c.On() {
			parts = append(parts, doc.Say("none at the end of %s", y.Label))
			continue
		}
		parts = append(parts, doc.Say("%s at the end of %s, %s of the mean, called %s before the first load, while at %s the holding has room for %s of what comes",
			doc.Show(c.Takes, doc.MassPerDay), y.Label, doc.WholePercent(c.Takes/y.Mean), doc.SpanInWords(c.Notice), doc.WholePercent(c.CallAt), doc.Show(c.Room, doc.Days)))
	}
	return doc.Say("By contract can be hauled at most, of dry solids: %s. Stages are reckoned without it.", doc.Join("; ", parts...))
}

// contractColumns are those of the years of a plant with a contract.
func (a *Answer) contractColumns() []doc.Col[Year] {
	if !a.Hauls {
		return nil
	}
	return []doc.Col[Year]{
		doc.Val("contract_takes_dry", doc.MassPerDay, func(y *Year) float64 { return y.Contract.Takes }),
		doc.Val("contract_takes_wet_a_month", doc.Mass, func(y *Year) float64 { return y.Contract.MostPerMonth }),
		doc.Val("contract_room_above_call", doc.Days, func(y *Year) float64 { return y.Contract.Room }),
	}
}
