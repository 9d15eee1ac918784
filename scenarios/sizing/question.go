package sizing

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// Question asks whether a facility file can be used, and what arithmetic says of it.
var Question = question.Question{
	Name:  "check",
	Group: question.Closer,
	Short: "Read a facility file: what is wrong, what arithmetic says",
	Long: `Read a facility file, report everything that is wrong or unusual in it with
line and column, and set what each stage of the plant sustains beside what comes,
by arithmetic: nothing is simulated.`,
	Examples: []string{"plant.yaml"},
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, _ question.Values) (*Answer, error) {
		return Ask(ctx, s, setup)
	}),
}
