package document

import (
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
)

// Reckoning is what the costs of several choices are made of, so that they can be reckoned
// again with other prices: what each uses, what it builds, and what the file says that
// this costs. Quantities are means over the runs, such that with the prices, rates and
// dates given here they come to exactly the means of the present worths of the runs.
// Amounts are in USD, a cost is positive.
type Reckoning struct {
	Start   calendar.Date
	Horizon int // years
	Rates   money.Rates
	Items   []ReckonedItem
	Decided []ReckonedStep   // steps of the file with dates, which every choice takes
	Choices []ReckonedChoice // in order of rank
	// Capital is how the cost of what is built rises, nominal, per year.
	Capital float64
	// Drawn names the prices and rates that are not known for sure, and are drawn for
	// each run. DrawnRate says that the discount rate is among them.
	Drawn     []string
	DrawnRate bool
}

// ReckonedItem is something that is used or sold, with its price.
type ReckonedItem struct {
	Name  string
	Part  money.Part
	Price money.Price // as the file has it
	// Amount is the quantity in which it is counted, and Per that of its price. Where
	// Amount has no unit of its own, Unit is its name, singular.
	Amount, Per Quantity
	Unit        string
	Note        string // what to know of its quantity; may be empty
}

// BuiltParts are the parts of what is built, which have places of their own in [ReckonedStep] and [ReckonedChoice].
var BuiltParts = [...]money.Part{money.Capital, money.Salvage, money.Maintenance, money.Running}

// Built holds something for each of [BuiltParts].
type Built[T any] [len(BuiltParts)]T

// ReckonedStep is a step that is taken on a date.
type ReckonedStep struct {
	Name               string
	Ordered, InService calendar.Date
	Asset              money.Asset // its Year and Lead are those that the run counted
	// Times is by how much the present worths of its parts in the mean of the runs differ
	// from those of the file's costs and rates: 1 unless these are drawn.
	Times Built[float64]
}

// ReckonedChoice is what one choice uses and builds.
type ReckonedChoice struct {
	Name  string
	Keeps Text             // how well it serves
	Used  [][]float64      // by item and year
	Steps []ReckonedStep   // those with dates
	Waits []string         // names of those that wait for a sign
	Loose Built[[]float64] // what is paid on dates of each run's own, by year, in stated prices, as if paid when running costs are
	// Present, Annual and ByPart are what the runs came to.
	Present, Annual float64
	ByPart          money.Amounts
}
