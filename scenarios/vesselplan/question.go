package vesselplan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question is that of the next vessels: when they must be ordered, and how many.
var Question = question.Question{
	Name:  "when",
	Short: "Say when the next vessels must be ordered, and how many",
	Long: `Find the last quarter in which an order of vessels keeps the chance of being late
within what the service target leaves, over all growth scenarios of the file by
weight, how many to order, what waiting longer means, and what to watch instead of
a forecast; for each growth scenario and number of vessels the last year that keeps
the target; beside it the handbook's static estimate and why it differs.`,
	Examples: []string{"", "plant.yaml --out results", "plant.yaml --vessels 12 --replications 400"},
	Options: []question.Option{
		{Name: "replications", Kind: question.Integer, Low: 1, High: facilityfile.MaxReplications,
			Words: "runs behind each share of runs; more make dates surer (default: 64)"},
		{Name: "wrong", Kind: question.Quantity, Dim: units.Fraction, Default: "5 %", Low: 0.001, High: 0.25,
			Words: "chance, at most, that a year said to be kept or missed is not; less leaves more years open"},
		{Name: "vessels", Kind: question.Integer, Low: 1, High: mostVessels, Words: "most vessels to try (default: the file's room_for)"},
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, Options{Runs: v.Int("replications"), UpTo: v.Int("vessels"), Wrong: v.Number("wrong")})
	}),
}
