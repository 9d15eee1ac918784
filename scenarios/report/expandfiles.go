package report

import (
	"io"
	"strconv"

	"loamcast/scenarios/expand"
	"loamcast/scenarios/money"
	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

var planFields = append([]field[expand.Plan]{
	{name: "present_worth", kind: costUSD, value: func(p *expand.Plan) float64 { return p.Present.Estimate }},
	{name: "present_worth_low95", kind: costUSD, value: func(p *expand.Plan) float64 { return p.Present.Low }},
	{name: "present_worth_high95", kind: costUSD, value: func(p *expand.Plan) float64 { return p.Present.High }},
	{name: "present_worth_p10", kind: costUSD, value: func(p *expand.Plan) float64 { return p.Low }},
	{name: "present_worth_p90", kind: costUSD, value: func(p *expand.Plan) float64 { return p.High }},
	{name: "over_first", kind: costUSD, value: func(p *expand.Plan) float64 { return p.OverFirst.Estimate }},
	{name: "over_first_low95", kind: costUSD, value: func(p *expand.Plan) float64 { return p.OverFirst.Low }},
	{name: "over_first_high95", kind: costUSD, value: func(p *expand.Plan) float64 { return p.OverFirst.High }},
	{name: "runs_missing_in_worst_year", kind: share, value: func(p *expand.Plan) float64 { return p.Share.Estimate }},
	{name: "runs_missing_in_worst_year_low95", kind: share, value: func(p *expand.Plan) float64 { return p.Share.Low }},
	{name: "runs_missing_in_worst_year_high95", kind: share, value: func(p *expand.Plan) float64 { return p.Share.High }},
}, partFields(func(p *expand.Plan) *money.Amounts { return &p.ByPart })...)

// ExpandJSON writes the plans as one JSON object.
func ExpandJSON(w io.Writer, a *expand.Answer, sys units.System) error {
	e := expandText{newPage(sys), a, len(a.Plans)}
	plans := make([]object, len(a.Plans))
	for i := range a.Plans {
		plans[i] = e.jsonPlan(&a.Plans[i])
	}
	short := any(nil)
	if !a.Keeps() {
		short = a.Short.String()
	}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"start", a.Start.String()},
		{"years", a.Years},
		{"units", sys.String()},
		{"headline", plainSpaces(e.headline())},
		{"growth", object{{"name", a.Growth.Name}, {"weight_percent", number(100 * a.Growth.Weight)}}},
		{"prices_of", a.Stated},
		{"real_discount" + yearly.suffix(sys), number(yearly.in(a.Real, sys))},
		{"target", jsonTarget(a.Target)},
		{"keeps_target", a.Keeps()},
		{"kept_through", e.jsonYear(a.Through)},
		{"short_then", short},
		{"as_it_is", object{{"kept_through", e.jsonYear(a.AsIs)}, {"missed_from", e.jsonYear(a.AsIsMissed)}, {"short_then", a.AsIsShort.String()}}},
		{"chance_first_is_cheapest_percent", number(100 * a.Chance)},
		{"settled", a.Settled},
		{"procedure", "Kim and Nelson 2001, the same replications for all plans"},
		{"indifference" + costUSD.suffix(sys), number(a.Indifference)},
		{"configurations", a.Configurations},
		{"configurations_simulated", a.Simulated},
		{"years_simulated", a.YearsSimulated},
		{"replications_allowed", a.Most},
		{"plans", plans},
		{"cautions", jsonCautions(a.Cautions)},
	})
}

func (e expandText) jsonPlan(p *expand.Plan) object {
	steps := make([]object, len(p.Steps))
	for i, s := range p.Steps {
		steps[i] = object{{"name", s.Name}, {"count", s.Count}, {"in_service", s.InService.String()}, {"order_by", s.OrderBy.String()}, {"order_is_late", s.Late}}
	}
	o := object{
		{"steps", steps},
		{"replications", p.Replications},
		{"target_kept", testWords[p.Verdict]},
		{"worst_year", e.a.Label(p.Worst)},
		{"runs_missing_by_year", p.Missed},
	}
	return append(o, record(p, planFields, e.sys)...)
}

// testWords say what the test of the target found of a plan.
var testWords = [...]string{stats.Undecided: "open", stats.Below: "yes"}

// jsonYear is a year's label, or null if it is none of the horizon.
func (e expandText) jsonYear(year int) any {
	if year < 0 || year >= e.a.Years {
		return nil
	}
	return e.a.Label(year)
}

// ExpandFiles returns everything that the plans leave in a folder.
func ExpandFiles(a *expand.Answer, sys units.System) ([]File, error) {
	e := expandText{newPage(sys), a, len(a.Plans)}
	files, err := filesOf("expand", a.Facility,
		func(w io.Writer) error { return ExpandTerminal(w, a, sys) },
		func(w io.Writer) error { return ExpandJSON(w, a, sys) },
		[]table{{"expand.csv", e.planRows()}, {"expand-steps.csv", e.stepRows()}, {"expand-years.csv", e.yearRows()}})
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.Expand(a))
	return append(files, drawn...), err
}

func (e expandText) planRows() [][]string {
	rows := [][]string{columnTitles([]string{"plan", "steps", "replications", "target_kept", "worst_year"}, planFields, e.sys)}
	for i := range e.a.Plans {
		p := &e.a.Plans[i]
		row := []string{strconv.Itoa(i + 1), plainSpaces(stepsInWords(p)), strconv.Itoa(p.Replications), testWords[p.Verdict], e.a.Label(p.Worst)}
		rows = append(rows, appendCells(row, p, planFields, e.sys))
	}
	return rows
}

// stepRows has a row for each step of each plan.
func (e expandText) stepRows() [][]string {
	rows := [][]string{{"plan", "step", "count", "in_service", "order_by", "order_is_late"}}
	for i := range e.a.Plans {
		for _, s := range e.a.Plans[i].Steps {
			rows = append(rows, []string{strconv.Itoa(i + 1), s.Name, strconv.Itoa(s.Count), s.InService.String(), s.OrderBy.String(), strconv.FormatBool(s.Late)})
		}
	}
	return rows
}

// yearRows has a row for each year of each plan.
func (e expandText) yearRows() [][]string {
	rows := [][]string{{"plan", "year", "runs", "runs_missing"}}
	for i := range e.a.Plans {
		p := &e.a.Plans[i]
		for y, missed := range p.Missed {
			rows = append(rows, []string{strconv.Itoa(i + 1), e.a.Label(y), strconv.Itoa(p.Replications), strconv.Itoa(missed)})
		}
	}
	return rows
}
