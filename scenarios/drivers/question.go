package drivers

import (
	"context"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
)

// mostRows keeps a typing error from running for days.
const mostRows = 10000

// Question asks what moves an answer most.
var Question = question.Question{
	Name:  "drivers",
	Group: question.Planning,
	Short: "Say which uncertain input moves an answer most",
	Long: `Find how far each uncertain input of the file, and the growth scenario, moves
an answer over its range, beside what chance alone does. The answers are:
vessels, the year from which more of the years miss the service target than it allows,
with the vessels installed and the inputs as they are (when finds the date to order by,
with all that is uncertain at once); chips, the fresh chips bought a year; cost, the
present worth of the costs: of the plant as it is, or of an option.`,
	Examples: []string{"", "plant.yaml --answer cost --option best --out results", "plant.yaml --answer chips --shares"},
	Options: []question.Option{
		{Name: "answer", Default: VesselYear.String(), Words: "vessels, chips or cost"},
		{Name: "option", Words: "what to ask about in place of the plant as it is: an option of the file by its name, or " + Best + ", the plan that expand finds; for chips and cost"},
		{Name: "shares", Kind: question.Switch, Words: "find the shares of the variance, too; takes several times as long"},
		{Name: "paths", Kind: question.Integer, Default: strconv.Itoa(DefaultTrajectories), Low: 2, High: mostRows, Words: "paths through the inputs; more give narrower intervals"},
		{Name: "replications", Kind: question.Integer, Default: strconv.Itoa(DefaultReplications), Low: 1, High: facilityfile.MaxReplications, Words: "runs of each point, for vessels up a ramp of production; more lower the noise"},
		{Name: "rows", Kind: question.Integer, Default: strconv.Itoa(DefaultRows), Low: 2, High: mostRows, Words: "rows of the design of --shares; more give narrower intervals"},
	},
	Simulates: true,
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		o := Options{Trajectories: v.Int("paths"), Replications: v.Int("replications"), Option: v.Text("option")}
		var err error
		if o.Output, err = ParseOutput(v.Text("answer")); err != nil {
			return nil, answer.WrongOption("answer:", "%v", err)
		}
		switch {
		case v.On("shares"):
			o.Rows = v.Int("rows")
		case v.Given("rows"):
			return nil, answer.WrongOption("rows", "%s: it counts only with --shares", v.Text("rows"))
		}
		return Ask(ctx, s, setup, o)
	}),
}
