package plan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// Question asks for the planning answers together.
var Question = question.Question{
	Name:  "plan",
	Group: question.Planning,
	Short: "Answer all at once: vessels, chips, compost, options",
	Long: `Answer the planning questions of FILE, of a built-in example, or of the demo if
nothing is named, on one screen and each with how sure it is: when the next vessels
must be ordered, how many chips to buy and what they cost, how much compost to
expect, and, if the file has options and money, which to choose. Each part is the
answer of its own command (when, chips, product, options) as that gives it if
nothing else is asked for.`,
	Examples:  []string{"", "plant.yaml --out results", "plant.yaml --units si --seed 7"},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, _ question.Values) (*Answer, error) {
		return Ask(ctx, s, setup)
	}),
}
