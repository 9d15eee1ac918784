package plant

import (
	"errors"
	"slices"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Contract is disposal by contract: a landfill, or another plant, takes cake as it is
// held when the plant calls, up to so much a month. Zero for none.
//
// Whether to call is looked at once a day, at midnight, as triggers are: the plant calls
// when more than CallAt of the holding is full. From the day on which the notice is over
// trucks come on every working day, until no more than DownTo is held or the month's
// limit is used up. Then the call is over, and the next needs its notice again. Trucks
// that are called come although the holding has fallen below CallAt by itself. A call
// whose notice is over in a month with nothing left of its limit waits for the next.
//
// What is not known leans to the side that warns: a notice begins with the day of the
// call and is over at the beginning of a day, trucks come only on days on which the mixer
// works, for somebody has to load them, and what a day hauls is gone at its end, so that
// what runs in on that day must find room first. The plant's loaders and operators are
// not asked for it: the contractor's are.
//
// Cake hauled by contract does not count as untreated, see [Month.Untreated]: it went
// where somebody has bound himself to take it, and a plant that holds such a contract has
// chosen that. It is measured and told by itself instead, wherever diverted cake is.
type Contract struct {
	// Number tells contracts apart in [MonthlyHolding.Contracts] where one takes the place
	// of another. Those of a model have numbers of their own.
	Number       int
	MostPerMonth float64 // kg wet in a calendar month
	MostPerDay   float64 // kg wet on a working day
	Notice       calendar.Span
	// CallAt and DownTo are shares of the holding, 0…1.
	CallAt, DownTo float64
}

// On reports whether there is a contract.
func (c Contract) On() bool { return c.MostPerMonth > 0 }

func (c Contract) validate() error {
	switch {
	case c == (Contract{}):
	case !(c.MostPerMonth > 0 && c.MostPerDay > 0):
		return errors.New("a contract takes something, in a month and on a day")
	case c.Notice.Months < 0 || c.Notice.Days < 0:
		return errors.New("the notice of a contract must not be negative")
	case !(c.DownTo >= 0 && c.DownTo < c.CallAt && c.CallAt < 1):
		return errors.New("a contract is called above a share of the holding below 1, and hauls down to a smaller one")
	}
	return nil
}

// Contracted reports whether a contract is in force from the start or comes with a change.
func (m *Model) Contracted() bool {
	return m.Contract.On() || slices.ContainsFunc(m.Changes, func(c Change) bool { return c.Contract.On() })
}

// ContractTakes returns the most that the contract in force takes, kg dry a day in the
// mean of a year: of what is held, cake at its mean solids content and feedstocks, as
// the first year brings them. It is 0 without a contract.
func (m *Model) ContractTakes() float64 {
	if !m.Contract.On() {
		return 0
	}
	dry := m.Feed.Base
	wet := dry / mean(m.Feed.CakeSolids[:])
	for i := range m.Feedstocks {
		f := &m.Feedstocks[i]
		perDay := mean(f.PerDay[:])
		dry, wet = dry+perDay, wet+perDay/(1-f.Material.Moisture)
	}
	perDay := min(m.Contract.MostPerMonth*calendar.MonthsPerYear/calendar.DaysPerYear, m.Contract.MostPerDay)
	return perDay * dry / wet
}

// MonthlyContract is what one month hauled under a contract.
type MonthlyContract struct {
	Number   int     // of the [Contract]
	Dry, Wet float64 // kg
}

// call is what is known of the contract in force during a run.
type call struct {
	open  bool
	from  calendar.Date // first day on which cake is hauled
	month calendar.Date // of which taken was hauled, kg wet
	taken float64
}

// callContract calls, if there is a reason to and no call is open.
func (p *plant) callContract() {
	c := &p.Contract
	if !c.On() || p.call.open || p.holding.dry <= c.CallAt*p.Holding.Capacity {
		return
	}
	p.call.open, p.call.from = true, c.Notice.After(p.dateNow())
	p.month.Holding.Calls++
}

// haulByContract hauls what the contract takes of a day that ends now.
func (p *plant) haulByContract() {
	c, s := &p.Contract, &p.call
	day := p.dateNow().AddDays(-1)
	if !s.open || day.Before(s.from) {
		return
	}
	over := p.overDown()
	if over == 0 {
		s.open = false
		return
	}
	if month := (calendar.Date{Year: day.Year, Month: day.Month, Day: 1}); s.month != month {
		s.month, s.taken = month, 0
	}
	left := c.left(s.taken)
	if left == 0 || !p.workingDay() {
		return
	}
	wet := min(over, left, c.MostPerDay)
	p.haul(wet)
	s.taken += wet
	s.open = p.overDown() > 0 && c.left(s.taken) > 0
}

// overDown returns what is held above the share at which hauling ends, kg wet. What is
// less than rounding leaves of it is nothing.
func (p *plant) overDown() float64 {
	held := &p.holding.parcel
	dry := p.holding.dry
	over := dry - p.Contract.DownTo*p.Holding.Capacity
	if over <= rounding*p.Holding.Capacity {
		return 0
	}
	return over * held.Total() / dry
}

// left returns what may still be hauled in a month, kg wet. What is less than rounding
// leaves of it is nothing.
func (c *Contract) left(taken float64) float64 {
	if left := c.MostPerMonth - taken; left > rounding*c.MostPerMonth {
		return left
	}
	return 0
}

// workingDay reports whether the mixer worked on the day that ends now.
func (p *plant) workingDay() bool {
	now := int64(p.k.Now())
	return p.Mixer.Hours.NextOpen(now-int64(sim.Day)) < now
}

// haul takes cake by contract, kg wet, the oldest first.
func (p *plant) haul(wet float64) {
	held := &p.holding.parcel
	var cake material.Parcel
	p.holding.take(&cake, share(wet, held.Total()))
	p.stations.holding.take(p.k.Now(), cake.Dry())
	p.move(p.books.contractCake, &cake, 0)
	p.month.Holding.haul(p.Contract.Number, cake.Dry(), cake.Total())
}

// haul measures what a contract took, kg.
func (m *MonthlyHolding) haul(number int, dry, wet float64) {
	m.ContractDry += dry
	m.ContractWet += wet
	i := slices.IndexFunc(m.Contracts, func(c MonthlyContract) bool { return c.Number == number })
	if i < 0 {
		i = len(m.Contracts)
		m.Contracts = append(m.Contracts, MonthlyContract{Number: number})
	}
	m.Contracts[i].Dry += dry
	m.Contracts[i].Wet += wet
}
