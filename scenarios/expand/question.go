package expand

import (
	"context"
	"fmt"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// mostPlans that are compared whole.
const mostPlans = 20

// Question is that of what to build when.
var Question = question.Question{
	Name:  "expand",
	Short: "Find the cheapest phased plan that keeps the service target",
	Long: `Search the file's catalogue of what may be built for the plan that costs least, as
present worth, and keeps the service target in every year, over all growth scenarios
by weight: what to build, when to have it in service and when to order it; beside it
the next best plans and what each costs more. The file needs money and a catalogue.`,
	Examples: []string{"", "plant.yaml --out results", "plant.yaml --growth fast --plans 6"},
	Options: []question.Option{
		{Name: "growth", Words: "name of a growth scenario to look at alone (default: all by weight)"},
		{Name: "plans", Kind: question.Integer, Default: strconv.Itoa(DefaultPlans), Low: 1, High: mostPlans, Words: "plans to compare and show"},
		{Name: "replications", Kind: question.Integer, Low: 1, High: facilityfile.MaxReplications,
			Words: fmt.Sprintf("most replications of a whole plan; more tell more apart (default: %d)", DefaultReplications)},
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, Options{Growth: v.Text("growth"), Plans: v.Int("plans"), Replications: v.Int("replications")})
	}),
}
