package mixplan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question is the mix for a month's cake.
var Question = question.Question{
	Name:  "mix",
	Group: question.Closer,
	Short: "Design the mix of a month: chips and amendments for the cake",
	Long: `Design the batch of a month at least cost: the month's cake with fresh chips,
the chips that the screen gives back, and the amendments of the file, so that
the mix meets the file's targets. Prints the mix, a loading card, and how far
the mix is from each target; when the targets cannot be met, why, and the
nearest mix.`,
	Examples: []string{"--month jan", `plant.yaml --month july --cake-solids "18 %" --sweep`},
	Options: []question.Option{
		{Name: "month", Kind: question.Month, Words: "month by name or number (default: the one in which the file starts)"},
		{Name: "cake-solids", Kind: question.Quantity, Dim: units.Fraction, Low: 0.08, High: 0.5, // as in a file
			Words: `solids content of the cake, e.g. "18 %" (default: the file's in that month)`},
		{Name: "sweep", Kind: question.Switch, Words: "show how the mix changes with the solids content of the cake"},
		question.OfClass,
	},
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		o := Options{Month: v.Month("month"), CakeSolids: v.Number("cake-solids")}
		if v.On("sweep") {
			o.Sweep = DefaultSweep()
		}
		var err error
		if o.Class, err = v.Class(&s.File.Model.Vessels); err != nil {
			return nil, err
		}
		return Ask(ctx, s, setup, o)
	}),
}
