package setback

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question is that of vessels that fail and of seasons that are not as usual.
var Question = question.Question{
	Name:  "setback",
	Short: "Say what is lost if a vessel is out for weeks, or a winter is wet",
	Long: `Simulate what the file lists under setbacks, each beside the same runs without it:
vessels that fail, with each month of a year as the one in which that begins, and
seasons with wetter cake and chips, colder air or more production. What leaves
untreated beyond what would anyway, how much longer cake waits, the chance of missing
the service target with and without, and the month in which a vessel is best out for
planned work. Without a list it tries one of the largest vessels out for six weeks,
and a wet winter; that is an assumption.`,
	Examples: []string{"", "plant.yaml --year 2031", "plant.yaml --name 'wet winter' --out results"},
	Options: []question.Option{
		{Name: "year", Kind: question.Words,
			Words: "year of the horizon in which it happens (default: the first, and the last in which the target is kept)"},
		{Name: "name", Kind: question.Words, Words: "the one setback to try (default: all)"},
		{Name: "replications", Kind: question.Integer, Low: leastRuns, High: mostRuns,
			Words: "runs with each setback and without (default: 64)"},
		{Name: "wrong", Kind: question.Quantity, Dim: units.Fraction, Default: "5 %", Low: 0.001, High: 0.25,
			Words: "chance, at most, that a target said to be kept or missed is not; less leaves more open"},
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, Options{Year: v.Text("year"), Name: v.Text("name"), Runs: v.Int("replications"), Wrong: v.Number("wrong")})
	}),
}
