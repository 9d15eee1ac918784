package chipplan

import (
	"context"
	"math"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question is that of the manager: how many chips to buy, and what they cost.
var Question = question.Question{
	Name:  "chips",
	Short: "Plan the purchase of chips: how many, for how much, when to order",
	Long: `Plan the chips to buy by month and fiscal year: fresh chips, what the screen
gives back and what is lost, truckloads, the store, and the money; the figure
for the budget and the chance of passing it; and the reorder point and order
size that keep mixing from waiting for chips, at least cost.`,
	Examples: []string{
		"",
		`plant.yaml --fiscal-year jul --years 3 --budget "120,000 USD"`,
		`plant.yaml --stockout "2 %" --order-cost "150 USD" --out chips`,
	},
	Options: append([]question.Option{
		{Name: "budget", Kind: question.Quantity, Dim: units.Money, High: math.Inf(1), Open: true,
			Words: `amount for a fiscal year whose chance of being passed is asked, in the file's currency, e.g. "120,000 USD"`},
		{Name: "stockout", Kind: question.Quantity, Dim: units.Fraction, Default: StockOut, High: 1, Open: true,
			Words: "chance that mixing waits for chips in a year, at most"},
		{Name: "order-cost", Kind: question.Quantity, Dim: units.Money, High: math.Inf(1), Open: true,
			Words: `fixed cost of an order beside the chips, e.g. "150 USD" (default: none)`},
	}, fiscal.Offered...),
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, Options{
			Options: fiscal.OptionsOf(v), Budget: v.Number("budget"), StockOut: v.Number("stockout"), PerOrder: v.Number("order-cost"),
		})
	}),
}

// StockOut is the chance of waiting for chips in a year that the ordering rule
// may have if nothing is said, as a user writes it.
const StockOut = "5 %"
