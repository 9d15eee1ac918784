package report

import (
	"io"
	"strconv"

	"loamcast/scenarios/report/picture"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

// StaircaseJSON writes the staircase of vessels as one JSON object.
func StaircaseJSON(w io.Writer, a *vesselplan.Answer, sys units.System) error {
	s := staircase{newPage(sys), a}
	growths := make([]object, len(a.Growths))
	for i := range a.Growths {
		growths[i] = s.jsonGrowth(&a.Growths[i])
	}
	return writeJSON(w, []member{
		{"facility", a.Facility},
		{"source", a.Source},
		{"invented", a.Invented},
		{"version", a.Version},
		{"seed", a.Seed},
		{"start", a.Start.String()},
		{"units", sys.String()},
		{"headline", plainSpaces(s.headline())},
		{"target", jsonTarget(a.Target)},
		{"vessel_lead_time_days", number(a.LeadDays)},
		{"verdict_wrong_at_most_percent", number(100 * a.Test.WrongAbove / (1 - a.Test.WrongBelow))},
		{"years_simulated", a.Simulated},
		{"growth_scenarios", growths},
		{"cautions", jsonCautions(a.Cautions)},
	})
}

func (s staircase) jsonGrowth(g *vesselplan.Growth) object {
	rows := make([]object, len(g.Rows))
	for i := range g.Rows {
		rows[i] = s.jsonRow(&g.Rows[i])
	}
	limits := make([]object, len(g.Next))
	for i, c := range g.Next {
		limits[i] = object{{"stage", c.Stage.String()}, {"can_carry_dry" + massPerTime.suffix(s.sys), number(massPerTime.in(c.CakeDry, s.sys))}}
	}
	return object{
		{"name", g.Name},
		{"weight_percent", number(100 * g.Weight)},
		{"vessels", rows},
		{"more_vessels_help", g.VesselsHelp()},
		{"limits", limits},
	}
}

func (s staircase) jsonRow(r *vesselplan.Row) object {
	years := make([]object, len(r.Tested))
	for i, y := range r.Tested {
		years[i] = object{{"year", s.a.Label(y.Year)}, {"verdict", verdictNames[y.Verdict]}, {"runs", y.Trials},
			{"missing_percent", number(100 * y.Share.Estimate)}, {"low_percent", number(100 * y.Share.Low)}, {"high_percent", number(100 * y.Share.High)}}
	}
	needed, order := any(nil), any(nil)
	if r.LastKept < s.a.Years-1 {
		needed, order = r.NeededBy.String(), r.OrderBy.String()
	}
	return object{
		{"count", r.Vessels},
		{"kept_through", s.jsonYear(r.LastKept)},
		{"missed_from", s.jsonYear(r.FirstMissed)},
		{"needed_by", needed},
		{"order_by", order},
		{"order_is_late", r.Late},
		{"first_missed_between", s.jsonBetween(r)},
		{"handbook_mean_short_from", s.jsonYear(r.StaticAverage)},
		{"handbook_peak_month_short_from", s.jsonYear(r.StaticPeak)},
		{"tested", years},
	}
}

// jsonBetween is how far off the first missed year may be, or null if that was not
// looked into.
func (s staircase) jsonBetween(r *vesselplan.Row) any {
	b := r.Between
	if b == nil {
		return nil
	}
	return object{{"from", s.jsonYear(b.From)}, {"to", s.jsonYear(b.To)}, {"confidence_percent", number(100 * b.Level)}, {"runs", b.Runs}}
}

// jsonYear is a year's label, or null outside the horizon.
func (s staircase) jsonYear(year int) any {
	if year < 0 || year >= s.a.Years {
		return nil
	}
	return s.a.Label(year)
}

// StaircaseFiles returns everything that the staircase leaves in a folder.
func StaircaseFiles(a *vesselplan.Answer, sys units.System) ([]File, error) {
	s := staircase{newPage(sys), a}
	files, err := filesOf("when", a.Facility,
		func(w io.Writer) error { return StaircaseTerminal(w, a, sys) },
		func(w io.Writer) error { return StaircaseJSON(w, a, sys) },
		[]table{{"when.csv", s.rows()}, {"when-years.csv", s.yearRows()}, {"when-limits.csv", s.limitRows()}})
	if err != nil {
		return nil, err
	}
	drawn, err := render(picture.Staircase(a))
	return append(files, drawn...), err
}

// rows has a row for each number of vessels in each growth scenario. An empty
// cell is not within the horizon.
func (s staircase) rows() [][]string {
	rows := [][]string{{"growth", "weight_percent", "vessels", "kept_through", "missed_from", "needed_by", "order_by", "order_is_late", "first_missed_low90", "first_missed_high90",
		"handbook_mean_short_from", "handbook_peak_month_short_from"}}
	cell := func(year int) string {
		if year < 0 || year >= s.a.Years {
			return ""
		}
		return s.a.Label(year)
	}
	for i := range s.a.Growths {
		g := &s.a.Growths[i]
		for k := range g.Rows {
			r := &g.Rows[k]
			needed, order, low, high := "", "", "", ""
			if b := r.Between; b != nil {
				low, high = cell(b.From), cell(b.To)
			}
			if r.LastKept < s.a.Years-1 {
				needed, order = r.NeededBy.String(), r.OrderBy.String()
			}
			rows = append(rows, []string{g.Name, plainNumber(100 * g.Weight), strconv.Itoa(r.Vessels), cell(r.LastKept), cell(r.FirstMissed),
				needed, order, strconv.FormatBool(r.Late), low, high, cell(r.StaticAverage), cell(r.StaticPeak)})
		}
	}
	return rows
}

// yearRows has a row for each year of each number of vessels. What comes before a
// year that is kept is kept. What comes after the first that is missed was not
// looked into: it may be kept again where the file changes something.
func (s staircase) yearRows() [][]string {
	rows := [][]string{{"growth", "vessels", "year", "verdict", "simulated_runs", "missing_percent", "low_percent", "high_percent"}}
	for i := range s.a.Growths {
		g := &s.a.Growths[i]
		for k := range g.Rows {
			r := &g.Rows[k]
			for year := range s.a.Years {
				row := []string{g.Name, strconv.Itoa(r.Vessels), s.a.Label(year), verdictOf(r, year), "0", "", "", ""}
				if y, ok := r.Of(year); ok {
					row[4] = strconv.Itoa(y.Trials)
					row[5], row[6], row[7] = plainNumber(100*y.Share.Estimate), plainNumber(100*y.Share.Low), plainNumber(100*y.Share.High)
				}
				rows = append(rows, row)
			}
		}
	}
	return rows
}

// verdictNames say on which side of the target a year lies, by stats.Verdict.
var verdictNames = [...]string{"too near to tell", "kept", "missed"}

func verdictOf(r *vesselplan.Row, year int) string {
	switch {
	case year <= r.LastKept:
		return verdictNames[1]
	case year == r.FirstMissed:
		return verdictNames[2]
	case year > r.FirstMissed:
		return "after the first missed"
	}
	return verdictNames[0]
}

func (s staircase) limitRows() [][]string {
	rows := [][]string{{"growth", "stage", "can_carry_dry" + massPerTime.suffix(s.sys)}}
	for i := range s.a.Growths {
		g := &s.a.Growths[i]
		for _, c := range g.Next {
			rows = append(rows, []string{g.Name, c.Stage.String(), plainNumber(massPerTime.in(c.CakeDry, s.sys))})
		}
	}
	return rows
}
