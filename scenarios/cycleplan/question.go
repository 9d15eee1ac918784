package cycleplan

import (
	"context"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/question"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
)

// Question asks how one load heats, dries and complies.
var Question = question.Question{
	Name:  "cycle",
	Group: question.Closer,
	Short: "Follow one load through vessel and curing",
	Long: `Follow one load of a month through the vessel and then on the curing pad: day
by day its temperature, moisture, solids, air and oxygen; when it meets each
criterion, or why it does not; what it takes and gives. The load is the file's
chips-to-cake ratio with the chips that such loads give back. With --month all,
a row for each month.`,
	Examples: []string{"--month jul", "plant.yaml --month all", "plant.yaml --month jan --days 21 --out january"},
	Options: []question.Option{
		{Name: "month", Kind: question.Months, Words: `month by name or number (default: the one in which the file starts); "all" compares the months`},
		{Name: "days", Kind: question.Quantity, Dim: units.Dimensionless, Words: "days to stay in the vessel (default: the file's residence)"},
		{Name: "hours", Kind: question.Quantity, Dim: units.Dimensionless, Words: "the same in hours"},
		question.OfClass,
	},
	Ask: question.Ask(func(ctx context.Context, s *study.Study, setup answer.Setup, v question.Values) (*Answer, error) {
		o := Options{Months: v.Months("month")}
		if len(o.Months) == 0 {
			o.Months = []time.Month{s.File.Model.Start.Month}
		}
		var err error
		if o.Stay, err = stayAsked(v); err != nil {
			return nil, err
		}
		if o.Class, err = v.Class(&s.File.Model.Vessels); err != nil {
			return nil, err
		}
		return Ask(ctx, s, setup, o)
	}),
}

// stayAsked returns the hours in the vessel that were asked for, 0 if none were.
func stayAsked(v question.Values) (float64, error) {
	const most = 366 * hoursPerDay
	name, hours := "days", v.Number("days")*hoursPerDay
	if v.Given("hours") {
		if v.Given("days") {
			return 0, answer.WrongOption("days", "and --hours: give one of them")
		}
		name, hours = "hours", v.Number("hours")
	}
	if v.Given(name) && !(hours >= 1 && hours <= most) {
		return 0, answer.WrongOption(name+":", "a stay of %g h is not from 1 hour to 366 days", hours)
	}
	return hours, nil
}
