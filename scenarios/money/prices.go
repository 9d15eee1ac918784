package money

import (
	"fmt"
	"math"
)

// Price is an amount per unit of something in stated prices, and how it rises.
type Price struct {
	Amount     float64 // USD per unit
	Escalation float64 // per year, nominal: it includes the general rise of prices
}

func (p Price) validate() error {
	switch {
	case math.IsNaN(p.Amount) || math.IsInf(p.Amount, 0):
		return fmt.Errorf("price %g must be finite", p.Amount)
	case !(p.Escalation > -1) || math.IsInf(p.Escalation, 0):
		return fmt.Errorf("escalation %g per year must be above −1", p.Escalation)
	}
	return nil
}

// Prices are the unit prices of what a plant uses and sells. A negative price
// turns the payment round: product that is hauled away at a fee.
type Prices struct {
	Labour Price // USD/h
	Power  Price // USD/kWh
	Fuel   Price // USD/m3
	// Carbon is the price of CO2 and what warms as much, USD/kg, of which power and fuel
	// give off so much, kg/kWh and kg/m3. What solids give off as they decay is carbon
	// that plants took up, and is not priced.
	Carbon                      Price
	CarbonOfPower, CarbonOfFuel float64
	Chips                       Price // USD/m3 loose, fresh
	// Amendments are of several prices, and so used as USD in stated prices; what they
	// cost counts among chips.
	Amendments Price
	Tipping    Price // USD/kg wet, hauled away
	// Contract is what is hauled by contract, of several prices, and so used as USD in
	// stated prices.
	Contract Price
	Missing  Price // USD/kg dry beyond what a target allows
	Sampling Price // USD per event
	Product  Price // USD/m3, received
}

// Use is what a plant uses and sells in one year.
type Use struct {
	Labour     float64 // h
	Power      float64 // kWh
	Fuel       float64 // m3
	Chips      float64 // m3 loose, fresh
	Amendments float64 // USD in stated prices, at a price of 1
	Tipping    float64 // kg wet
	Contract   float64 // USD in stated prices, at a price of 1
	Missing    float64 // kg dry beyond what a target allows
	Sampling   float64 // events; see MonitoringEvents
	Product    float64 // m3 sold
	Dry        float64 // kg dry solids that the cost is shared over
}

// Item is a quantity with its price.
type Item struct {
	Part     Part
	Price    Price
	Quantity float64
}

// Items are what a year uses and sells, with what each costs or brings: always as many,
// in the same order.
func (p Prices) Items(u Use) []Item {
	return []Item{
		{Labour, p.Labour, u.Labour},
		{Power, p.Power, u.Power},
		{Fuel, p.Fuel, u.Fuel},
		{Carbon, p.Carbon, u.Power*p.CarbonOfPower + u.Fuel*p.CarbonOfFuel},
		{Chips, p.Chips, u.Chips},
		{Chips, p.Amendments, u.Amendments},
		{Tipping, p.Tipping, u.Tipping},
		{Contract, p.Contract, u.Contract},
		{Missing, p.Missing, u.Missing},
		{Sampling, p.Sampling, u.Sampling},
		{Sales, p.Product, u.Product},
	}
}

// received returns what the item brings, USD in stated prices.
func (it Item) received() float64 {
	if it.Part == Sales {
		return it.Price.Amount * it.Quantity
	}
	return -it.Price.Amount * it.Quantity
}

// flows returns the running payments of one year.
func (p Prices) flows(year int, u Use, timing Timing) []Flow {
	items := p.Items(u)
	out := make([]Flow, len(items))
	for i, it := range items {
		out[i] = Flow{
			Part: it.Part, Year: year, At: timing.Instant(year),
			Amount: it.received(), Escalation: it.Price.Escalation,
		}
	}
	return out
}
