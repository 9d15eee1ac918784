package simulate

import (
	"context"
	"iter"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// Question is what the facility does as its file has it.
var Question = question.Question{
	Name:  "run",
	Group: question.Closer,
	Short: "Simulate a facility: vessels, chips and compost by year",
	Long: `Simulate the facility of FILE, of a built-in example, or of the demo if
nothing is named, and print what goes in, what comes out, and how many
vessels, chips and how much compost each year holds. It plays the file's own
values: what the file calls uncertain is drawn, and growths are weighed, by when,
which says when to order vessels.`,
	Examples: []string{
		"",
		"plant.yaml --out results",
		"plant.yaml --replications 100 --seed 7 --units si",
	},
	Options: []question.Option{
		{Name: "replications", Kind: question.Integer, Low: 1, High: facilityfile.MaxReplications,
			Words: "number of replications (default: the file's)"},
		watched,
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		return Ask(ctx, s, setup, Options{Replications: v.Int("replications"), Quarter: v.Text(watched.Name)})
	}),
	Trace: Trace,
	Replicated: question.Replicate(Simulate, func(s *study.Study, setup answer.Setup, n int, all iter.Seq2[Replication, error], v question.Values) (*Answer, error) {
		return Reduce(s, setup, n, all, v.Text(watched.Name))
	}, watched),
}

// watched says when the vessels of the first replication are looked at, which goes on in
// any case.
var watched = question.Option{Name: "quarter", Words: "first of the three months in which the loads of each vessel are drawn, such as 2031-07 (default: the quarter in which the holding is first at its fullest)"}
