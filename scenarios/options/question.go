package options

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question is that of the option to choose.
var Question = question.Question{
	Name:  "options",
	Short: "Compare the options of a file: cost, service, and which to choose",
	Long: `Simulate the plant as it is and with each option of the file, under each growth
scenario, and say which option to choose: the cheapest by present worth that keeps
the service target, by how much, and how sure that is. The file needs money,
options and, if growth is not certain, growth_scenarios.

Regret is what a choice costs more than the cheapest that keeps the target under the
same growth scenario. What misses it has none, unless the file gives missing it a
price, money.missing: then that is among the costs, and regret is over all.`,
	Examples: []string{"", "plant.yaml --out results", `plant.yaml --replications 60 --discount "4 %/year"`},
	Options: []question.Option{
		{Name: "replications", Kind: question.Integer, Low: 2, High: facilityfile.MaxReplications,
			Words: "most replications of each option and growth scenario (default: the file's)"},
		{Name: "discount", Kind: question.Quantity, Dim: units.AnnualRate, Low: -0.1, High: 0.5, // as in a file
			Words: `discount rate instead of the file's, such as "4 %/year", nominal or real as there`},
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		o := Options{Replications: v.Int("replications")}
		if v.Text("discount") != "" {
			rate := v.Number("discount")
			o.Discount = &rate
		}
		return Ask(ctx, s, setup, o)
	}),
}
