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
	first, last := &a.Years[0], &a.Years[len(a.Years)-1]
	text := first.byContract()
	switch {
	case last.Contract.Contract != first.Contract.Contract:
		text = text.Then(" %s", last.byContract())
	case last != first && first.Contract.On():
		text = text.Then(" In %s it is %s of the mean, and room for %s.", last.Label, last.contractShare(), doc.DaysInWords(last.Contract.Room))
	}
	if c := &last.Contract; c.On() && c.Room < float64(noticed.DaysUntil(c.Notice.After(noticed))) {
		text = text.Then(" That is less than the notice: with a lower call_at less is diverted before trucks come.")
	}
	return text.Then(" What stages sustain is reckoned without it.")
}

// byContract is that of one year.
func (y *Year) byContract() doc.Text {
	c := &y.Contract
	if !c.On() {
		return doc.Say("At the end of %s no contract is in force.", y.Label)
	}
	return doc.Say("At the end of %s a contract takes at most %s wet a month, or %s of dry solids, %s of the mean. When the plant calls, with the holding %s full, there is room for %s of the mean if nothing is mixed; the notice is %s.",
		y.Label, doc.Show(c.MostPerMonth, doc.Mass), doc.Show(c.Takes, doc.MassPerDay), y.contractShare(),
		doc.WholePercent(c.CallAt), doc.DaysInWords(c.Room), doc.SpanInWords(c.Notice))
}

func (y *Year) contractShare() string { return doc.WholePercent(y.Contract.Takes / y.Mean) }

// noticed is any day: a notice is reckoned from it.
var noticed = calendar.Date{Year: 2027, Month: 1, Day: 1}

// contractColumns are those of the years of a plant with a contract.
func (a *Answer) contractColumns() []doc.Col[Year] {
	if !a.Hauls {
		return nil
	}
	return []doc.Col[Year]{
		doc.Val("contract_takes_dry", doc.MassPerDay, func(y *Year) float64 { return y.Contract.Takes }).Means("what the contract takes at most, mean over the year", doc.Dry),
		doc.Val("contract_takes_wet_a_month", doc.Mass, func(y *Year) float64 { return y.Contract.MostPerMonth }).Means("most cake of a month that the contract takes, as weighed", doc.Wet),
		doc.Val("contract_room_above_call", doc.Days, func(y *Year) float64 { return y.Contract.Room }).Means("days of production that the holding takes above the share at which the plant calls"),
	}
}
