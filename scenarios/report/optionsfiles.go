package report

import (
	"io"
	"strconv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/money"
	"loamcast/scenarios/options"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
)

// Quantities of money over time.
var (
	yearly  = quantity{units.AnnualRate, 1}
	perYear = quantity{units.MoneyPerTime, 1 / 365.25} // from USD/year
)

// summaryFields are those of a choice under one growth scenario or all.
var summaryFields = append([]field[options.Summary]{
	{name: "present_worth", kind: costUSD, value: func(s *options.Summary) float64 { return s.Present.Estimate }},
	{name: "present_worth_low95", kind: costUSD, value: func(s *options.Summary) float64 { return s.Present.Low }},
	{name: "present_worth_high95", kind: costUSD, value: func(s *options.Summary) float64 { return s.Present.High }},
	{name: "present_worth_p10", kind: costUSD, value: func(s *options.Summary) float64 { return s.Low }},
	{name: "present_worth_p90", kind: costUSD, value: func(s *options.Summary) float64 { return s.High }},
	{name: "over_as_it_is", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverAsIs.Estimate }},
	{name: "over_as_it_is_low95", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverAsIs.Low }},
	{name: "over_as_it_is_high95", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverAsIs.High }},
	{name: "over_first", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverFirst.Estimate }},
	{name: "over_first_low95", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverFirst.Low }},
	{name: "over_first_high95", kind: costUSD, value: func(s *options.Summary) float64 { return s.OverFirst.High }},
	{name: "equivalent_annual_cost", kind: perYear, value: func(s *options.Summary) float64 { return s.Annual }},
	{name: "cost_per_dry_solids", kind: perDry, value: func(s *options.Summary) float64 { return s.PerDry }},
	{name: "diverted_dry", kind: mass, value: func(s *options.Summary) float64 { return s.Diverted }},
	{name: "diverted_share", kind: share, value: func(s *options.Summary) float64 { return s.Share }},
	{name: "years_missing_target", kind: count, value: func(s *options.Summary) float64 { return s.YearsMissed }},
	{name: "hours_over_air_limit", kind: count, value: func(s *options.Summary) float64 { return s.HoursOver }},
	{name: "regret", kind: costUSD, value: func(s *options.Summary) float64 { return s.Regret }},
}, partFields(func(s *options.Summary) *money.Amounts { return &s.ByPart })...)

// partFields are the parts of a present worth.
func partFields[T any](of func(*T) *money.Amounts) []field[T] {
	var list []field[T]
	for _, part := range money.Parts() {
		list = append(list, field[T]{name: "present_worth_of_" + part.String(), kind: costUSD,
			value: func(x *T) float64 { return of(x)[part] }})
	}
	return list
}

// overallFields are those that make sense over all growth scenarios: regret is
// within one.
var overallFields = func() []field[options.Summary] {
	var list []field[options.Summary]
	for _, f := range summaryFields {
		if f.name != "regret" {
			list = append(list, f)
		}
	}
	return list
}()

// OptionsJSON writes the comparison as one JSON object, the choices in the order
// of their rank.
func OptionsJSON(w io.Writer, a *options.Answer, sys units.System) error {
	choices := make([]object, len(a.Order))
	for i, row := range choiceRows(a) {
		choices[i] = jsonChoice(row, sys)
	}
	growths := make([]object, len(a.Growths))
	for i, g := range a.Growths {
		growths[i] = object{{"name", g.Name}, {"weight_percent", number(100 * g.Weight)}}
	}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"units", sys.String()},
		{"headline", a.Headline()},
		{"doubts", append([]string{}, a.Doubts()...)},
		{"chance_first_is_cheapest_of_its_kind_percent", number(100 * a.Chance)},
		{"settled", a.Settled},
		{"procedure", "same replications for all choices; rounds until Bonferroni's bound from paired t reaches 95 %"},
		{"replications_each", a.Replications},
		{"replications_allowed", a.Most},
		{"runs", a.Runs},
		{"start", a.Start.String()},
		{"years", a.Years},
		{"prices_of", a.Stated},
		{"real_discount" + yearly.suffix(sys), number(yearly.in(a.Real, sys))},
		{"target", jsonTarget(a.Target)},
		{"growth_scenarios", growths},
		{"choices", choices},
		{"cautions", jsonCautions(answer.Cautions())},
	})
}

func jsonChoice(c choiceRow, sys units.System) object {
	steps := make([]object, len(c.Steps))
	for i, s := range c.Steps {
		steps[i] = object{{"name", s.Name}, {"triggered", s.Triggered}, {"taken_percent", number(100 * s.Taken)}, {"in_service_median", medianDate(s)}}
	}
	growths := make([]object, len(c.Growths))
	for g := range c.Growths {
		growths[g] = append(object{{"growth", c.a.Growths[g].Name}, {"keeps_target", c.Growths[g].Keeps}}, record(&c.Growths[g], summaryFields, sys)...)
	}
	missing := make([]number, len(c.Service.Years))
	for y, share := range c.Service.Years {
		missing[y] = number(100 * share)
	}
	o := object{
		{"rank", c.rank},
		{"name", c.Name},
		{"as_it_is", c.AsIs},
		{"standing", c.Standing.String()},
		{"keeps_target", c.Service.Keeps},
		{"keeps_target_sure", c.Service.Sure},
		{"misses_target_from", c.firstMissed()},
		{"worst_year", c.a.Years[c.Service.Worst]},
		{"runs_missing_in_worst_year_percent", number(100 * c.Service.Share.Estimate)},
		{"runs_missing_in_worst_year_low95_percent", number(100 * c.Service.Share.Low)},
		{"runs_missing_in_worst_year_high95_percent", number(100 * c.Service.Share.High)},
		{"regret_mean" + costUSD.suffix(sys), number(c.Regret)},
		{"regret_worst" + costUSD.suffix(sys), number(c.WorstRegret)},
	}
	o = append(o, record(&c.All, overallFields, sys)...)
	return append(o, member{"runs_missing_by_year_percent", missing}, member{"steps", steps}, member{"growth_scenarios", growths})
}

// firstMissed is the label of the first year that misses the target, or nil.
func (c choiceRow) firstMissed() any {
	if c.Service.Keeps {
		return nil
	}
	return c.a.Years[c.Service.FirstMissed]
}

// medianDate is when a step takes effect, or nil if it never does.
func medianDate(s options.Step) any {
	if s.Taken == 0 {
		return nil
	}
	return s.InService.String()
}

// choiceRow is a choice with its rank, for tables.
type choiceRow struct {
	a    *options.Answer
	rank int
	*options.Choice
}

// choiceRows returns the choices in order of rank.
func choiceRows(a *options.Answer) []choiceRow {
	rows := make([]choiceRow, len(a.Order))
	for rank, i := range a.Order {
		rows[rank] = choiceRow{a, rank + 1, &a.Choices[i]}
	}
	return rows
}

// growthRow is a choice under a growth scenario.
type growthRow struct {
	choiceRow
	growth int
}

// OptionsFiles returns everything that a comparison leaves in a folder.
func OptionsFiles(a *options.Answer, sys units.System) ([]File, error) {
	rows := choiceRows(a)
	var byGrowth []growthRow
	for _, row := range rows {
		for g := range a.Growths {
			byGrowth = append(byGrowth, growthRow{row, g})
		}
	}
	files, err := filesOf("options", a.Facility,
		func(w io.Writer) error { return OptionsTerminal(w, a, sys) },
		func(w io.Writer) error { return OptionsJSON(w, a, sys) },
		[]table{
			{"options.csv", tableOf(rows, []string{"rank", "choice", "misses_target_from"}, choiceKey, choiceFields, sys)},
			{"options-growth.csv", tableOf(byGrowth, []string{"rank", "choice", "growth", "keeps_target"}, growthKey, growthFields, sys)},
			{"options-years.csv", missingTable(a)},
		})
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.Options(a))
	return append(files, drawn...), err
}

func choiceKey(r *choiceRow) []string {
	from, _ := r.firstMissed().(string)
	return []string{strconv.Itoa(r.rank), r.Name, from}
}

func growthKey(r *growthRow) []string {
	return []string{strconv.Itoa(r.rank), r.Name, r.a.Growths[r.growth].Name, strconv.FormatBool(r.Growths[r.growth].Keeps)}
}

var choiceFields = func() []field[choiceRow] {
	list := []field[choiceRow]{
		{name: "runs_missing_in_worst_year", kind: share, value: func(r *choiceRow) float64 { return r.Service.Share.Estimate }},
		{name: "runs_missing_in_worst_year_low95", kind: share, value: func(r *choiceRow) float64 { return r.Service.Share.Low }},
		{name: "runs_missing_in_worst_year_high95", kind: share, value: func(r *choiceRow) float64 { return r.Service.Share.High }},
		{name: "regret_mean", kind: costUSD, value: func(r *choiceRow) float64 { return r.Regret }},
		{name: "regret_worst", kind: costUSD, value: func(r *choiceRow) float64 { return r.WorstRegret }},
	}
	for _, f := range overallFields {
		list = append(list, field[choiceRow]{name: f.name, kind: f.kind, value: func(r *choiceRow) float64 { return f.value(&r.All) }})
	}
	return list
}()

var growthFields = func() []field[growthRow] {
	var list []field[growthRow]
	for _, f := range summaryFields {
		list = append(list, field[growthRow]{name: f.name, kind: f.kind, value: func(r *growthRow) float64 { return f.value(&r.Growths[r.growth]) }})
	}
	return list
}()

// missingTable has a row for each year, and in it the runs of each choice that
// miss the target.
func missingTable(a *options.Answer) [][]string {
	header := []string{"year"}
	for _, i := range a.Order {
		header = append(header, "runs_missing_target_percent: "+a.Choices[i].Name)
	}
	rows := [][]string{header}
	for y, label := range a.Years {
		row := []string{label}
		for _, i := range a.Order {
			row = append(row, plainNumber(100*a.Choices[i].Service.Years[y]))
		}
		rows = append(rows, row)
	}
	return rows
}
