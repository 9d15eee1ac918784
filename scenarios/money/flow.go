package money

// Part says what a flow is for.
type Part int

// The parts, in the order of reports.
const (
	Capital     Part = iota // buying and replacing assets
	Salvage                 // what assets fetch, or are worth at the end
	Maintenance             // a share of capital a year
	Running                 // other yearly costs of assets
	Labour
	Power
	Fuel
	Carbon // given off for power and fuel, where that has a price
	Chips
	Tipping  // of what is hauled away
	Contract // of what is hauled by contract
	Missing  // a target, where that has a price
	Sampling
	Sales // of product
	parts // their number
)

var partNames = [parts]string{
	"capital", "salvage", "maintenance", "running", "labour", "power", "fuel", "carbon", "chips", "tipping", "contract", "missing", "sampling", "sales",
}

// String returns the name in lower case, such as "labour".
func (p Part) String() string { return partNames[p] }

// Parts returns all parts in the order of reports.
func Parts() []Part {
	all := make([]Part, parts)
	for i := range all {
		all[i] = Part(i)
	}
	return all
}

// Amounts holds an amount for each part, USD.
type Amounts [parts]float64

// Total returns the sum over the parts, USD.
func (a Amounts) Total() float64 {
	sum := 0.0
	for _, usd := range a {
		sum += usd
	}
	return sum
}

// Flow is money that passes once, in stated prices.
type Flow struct {
	Part       Part
	Year       int     // of the plan, from 0, to whose account it belongs
	At         float64 // years since the start of the plan
	Amount     float64 // USD in stated prices; received > 0, paid < 0
	Escalation float64 // per year, nominal, of this price
}
