package chipplan

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/sim/stats"
)

// Answer is a purchase plan for chips.
type Answer struct {
	answer.Basis
	fiscal.Naming
	Growths    []fiscal.Share // empty if the file has no scenarios
	Price      Price
	Years      []Year
	Months     []Month
	Ordering   Ordering
	Amendments Amendments
	Sources    Sources
}

// Price is what a delivered m3 of fresh chips costs.
type Price struct {
	Known      bool
	Amount     float64 // USD/m3, as the file states it
	Escalates  bool    // the file has a section on money
	Stated     int     // year of its money, if it escalates
	Escalation float64 // per year, nominal
	OfFirst    bool    // it is that of the first of several suppliers, in the mean of the months
}

// Flows are volumes of chips in a month or year.
type Flows struct {
	Bought     answer.Spread // fresh, delivered
	Truckloads answer.Spread
	Used       answer.Spread // mixed, fresh and recovered
	FreshUsed  answer.Spread // of these: with the media, what must be bought in the long run
	Recovered  answer.Spread
	// Lost is what the lots that were screened or hauled away had been mixed with, less
	// what came back of it: decayed, worn to fines, rejected, carried into the product.
	Lost       answer.Spread
	Media      answer.Spread // fresh, into the biofilter
	StorePeak  answer.Spread // fresh chips on hand
	StoreEnd   answer.Spread
	HoursShort answer.Spread // during which mixing waited for chips
	Spend      answer.Spread // 0 if no price is known
	// StockOut is the chance that mixing waits for chips at all.
	StockOut stats.Interval
}

// Month is a month of the plan.
type Month struct {
	fiscal.Month
	Flows
	BoughtToDate answer.Spread // since the fiscal year began
	SpendToDate  answer.Spread
}

// Year is a fiscal year of the plan.
type Year struct {
	Label string
	Flows
	Orders []Order // of fresh chips, in their order
	// Budget is the figure for the book: the P90 of the spend, rounded up, and
	// Passing the chance that the year costs more.
	Budget  float64
	Passing stats.Interval
	// AskedBudget is the budget that was asked about, 0 if none was, and
	// PassingAsked the chance that the year costs more.
	AskedBudget  float64
	PassingAsked stats.Interval
}

// Rule says when chips are ordered and how many: when those on hand and on
// order fall to Reorder, whole truckloads up to OrderUpTo; m3.
type Rule struct{ Reorder, OrderUpTo float64 }

// Ordering is the search for the best rule.
type Ordering struct {
	Store, Truckload float64
	LeadTime, LeadCV float64 // days; coefficient of variation
	Limit            float64 // chance of a stock-out in a year that is accepted
	Cost             CostModel
	AsIs, Best       Trial
	// Fits is false if no rule within the store keeps the limit; Best then
	// needs a larger one.
	Fits bool
	// Kept says whether the plant itself keeps the limit with Best.
	Kept bool
	// Tried counts the rules compared in the inventory model, and Simulated
	// those tried in the plant.
	Tried, Simulated int
}

// CostModel says what rules are compared by: the truckloads of a year are
// nearly the same under every rule, so that what differs is the money tied up in
// the pile and the fixed cost of orders.
type CostModel struct {
	InMoney  bool    // otherwise the rule with the least mean stock is best
	Capital  float64 // USD per m3 of mean stock and year: price × nominal discount rate
	Ordering float64 // USD per order
}

// Trial is how a rule does. Chances are those of a stock-out in a year, in the
// fiscal year in which it is likeliest.
type Trial struct {
	Rule
	MeanStock     float64 // m3, in the inventory model
	OrdersPerYear float64
	Cost          float64        // USD a year by the cost model; 0 if not in money
	Inventory     stats.Interval // in the inventory model
	Plant         stats.Interval // in the plant
}

// Truckloads returns how many truckloads an order has, at least.
func (r Rule) Truckloads(truckload float64) int {
	return int((r.OrderUpTo-r.Reorder)/truckload + 1e-6)
}
