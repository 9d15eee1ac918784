package money

import (
	"fmt"
	"math"
)

// Timing says when in a year its running costs and receipts count as paid.
// Assets are paid at their own instants.
type Timing int

const (
	EndOfYear Timing = iota // the convention of textbooks and their tables
	MidYear                 // nearer to costs that are spread over the year
)

// Instant returns when the running payments of a year count, in years since the
// start of the plan; year 0 is the first.
func (t Timing) Instant(year int) float64 {
	if t == MidYear {
		return float64(year) + 0.5
	}
	return float64(year) + 1
}

// Rates says in which year's money prices are stated and how money loses worth
// over time.
type Rates struct {
	Stated     int     // the calendar year of stated prices, which hold on its first day
	Start      float64 // when the plan begins, as a calendar year: 2027.5 is the middle of 2027
	Discount   float64 // per year; nominal, or above Escalation if Real
	Escalation float64 // per year, the general rise of prices
	Real       bool
	Timing     Timing
}

// Validate reports the first value that has no meaning.
func (r Rates) Validate() error {
	switch {
	case !(r.Discount > -1) || math.IsInf(r.Discount, 0):
		return fmt.Errorf("discount rate %g per year must be above −1", r.Discount)
	case !(r.Escalation > -1) || math.IsInf(r.Escalation, 0):
		return fmt.Errorf("escalation %g per year must be above −1", r.Escalation)
	case math.IsNaN(r.Start) || math.IsInf(r.Start, 0):
		return fmt.Errorf("start %g must be a calendar year", r.Start)
	case r.Timing != EndOfYear && r.Timing != MidYear:
		return fmt.Errorf("timing %d is neither the end nor the middle of the year", r.Timing)
	}
	return nil
}

// RealDiscount returns the discount rate above the general rise of prices, per
// year: (1 + nominal)/(1 + escalation) − 1.
func (r Rates) RealDiscount() float64 {
	if r.Real {
		return r.Discount
	}
	return (r.Discount - r.Escalation) / (1 + r.Escalation)
}

// NominalDiscount returns the discount rate of the money of each day, per year:
// (1 + real)·(1 + escalation) − 1.
func (r Rates) NominalDiscount() float64 {
	if r.Real {
		return r.Discount + r.Escalation + r.Discount*r.Escalation
	}
	return r.Discount
}

// General returns a price, in stated prices, that rises with prices in general.
func (r Rates) General(amount float64) Price {
	return Price{Amount: amount, Escalation: r.Escalation}
}

// Nominal returns a flow in the money of the day it is paid, USD.
func (r Rates) Nominal(f Flow) float64 {
	return f.Amount * grow(f.Escalation, r.sinceStated(f.At))
}

// Constant returns a flow in constant money of the stated year, USD: what is
// left of its rise once the general rise of prices is taken out.
func (r Rates) Constant(f Flow) float64 {
	above := (f.Escalation - r.Escalation) / (1 + r.Escalation)
	return f.Amount * grow(above, r.sinceStated(f.At))
}

// Worth returns the worth at the start of the plan, in money of the stated year, of 1 in
// stated prices that is paid at an instant of the plan and rises by an escalation.
func (r Rates) Worth(at, escalation float64) float64 {
	return r.Constant(Flow{At: at, Amount: 1, Escalation: escalation}) * grow(r.RealDiscount(), -at)
}

// sinceStated returns the years from the date of stated prices to an instant of
// the plan.
func (r Rates) sinceStated(at float64) float64 { return r.Start - float64(r.Stated) + at }

// PresentWorth returns the worth of flows at the start of the plan, in money of
// the stated year, USD.
func (r Rates) PresentWorth(flows []Flow) float64 { return r.ByPart(flows).Total() }

// ByPart returns the present worth of flows part by part, in money of the stated
// year, USD.
func (r Rates) ByPart(flows []Flow) Amounts {
	discount := r.RealDiscount()
	var worth Amounts
	for _, f := range flows {
		worth[f.Part] += r.Constant(f) * grow(discount, -f.At)
	}
	return worth
}

// Annuity returns the present worth of 1 USD of the stated year in each of so
// many years, paid when running costs are. A present worth over it is the
// equivalent annual amount in constant money; with end-of-year timing its
// inverse is the capital recovery factor.
func (r Rates) Annuity(years int) float64 {
	discount := r.RealDiscount()
	early := 1 - r.Timing.Instant(0) // of payments, before the end of their year
	return SeriesPresentWorth(discount, years) * grow(discount, early)
}
