package productplan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// Question is that of the compost to expect.
var Question = question.Question{
	Name:  "product",
	Short: "Plan the compost to expect: how much, and when too little",
	Long: `Plan the compost by month and fiscal year: what is screened and what is taken,
what the store holds, the months in which it is full and stops the screen, the
months in which demand goes unmet, and what the compost brings.`,
	Examples:  []string{"", "plant.yaml --fiscal-year jul --years 3 --out product"},
	Options:   fiscal.Offered,
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, fiscal.OptionsOf(v))
	}),
}
