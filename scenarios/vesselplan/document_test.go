package vesselplan_test

import (
	"encoding/csv"
	"encoding/json"
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// sample has invented figures, with a row that is sure, one that is not, one that
// lasts, and a scenario beside it.
func sample() *vesselplan.Answer {
	tested := func(year int, verdict stats.Verdict, share, low, high float64, trials int) vesselplan.Year {
		return vesselplan.Year{Year: year, Verdict: verdict, Trials: trials, Share: stats.Interval{Estimate: share, Low: low, High: high, Level: 0.95}}
	}
	row := func(vessels, kept, missed int) vesselplan.Row {
		needed := calendar.Date{Year: 2027 + kept + 1, Month: 7, Day: 1}
		return vesselplan.Row{Vessels: vessels, LastKept: kept, FirstMissed: missed, NeededBy: needed, OrderBy: needed.AddMonths(-12),
			StaticAverage: 20, StaticPeak: 16, Stay: 19.9, StaticStay: 19.5, CakePerLoad: 1840, StaticCakePerLoad: 2110, Limit: plant.NoCuringSpace}
	}
	first, second, lasts := row(8, 9, 10), row(9, 12, 14), row(10, 19, 20)
	first.Tested = []vesselplan.Year{tested(9, stats.Below, 0.0375, 0.013, 0.105, 80), tested(10, stats.Above, 0.29, 0.15, 0.49, 24)}
	second.Tested = []vesselplan.Year{tested(12, stats.Below, 0, 0, 0.09, 40), tested(13, stats.Undecided, 0.052, 0.02, 0.12, 96), tested(14, stats.Above, 0.25, 0.07, 0.59, 8)}
	lasts.CakePerLoad, lasts.Tested = 0, []vesselplan.Year{tested(19, stats.Below, 0.018, 0, 0.09, 56)}
	first.Between = &vesselplan.Between{From: 8, To: 11, Level: 0.9, Runs: 50}
	slow := row(8, 15, 16)
	basis := rendertest.Basis().Replicated(0)
	basis.Start, basis.Horizon = calendar.Date{Year: 2027, Month: 1, Day: 1}, 20
	basis.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	return &vesselplan.Answer{
		Basis: basis,
		Test:  stats.ShareTest{Low: 0.02, High: 0.1, WrongAbove: 0.05, WrongBelow: 0.05}, Most: 96, Lead: calendar.Span{Months: 12}, Installed: 8, Added: make([]int, 20),
		Growths: []vesselplan.Growth{
			{Scenario: answer.Scenario{Name: "slow", Weight: 0.3}, Rows: []vesselplan.Row{slow}, Fed: 600, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20)},
			{Scenario: answer.Scenario{Name: "as expected", Weight: 0.7}, Rows: []vesselplan.Row{first, second, lasts}, Fed: 760, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20),
				Next: []plant.Capacity{{Stage: plant.AtVessels, CakeDry: 900}, {Stage: plant.AtDemand, CakeDry: 1100}, {Stage: plant.AtMixer, CakeDry: 6000}}},
		},
		Simulated: 846, Whole: 14112,
	}
}

// The staircase reads as reviewed, in both systems of units, on one screen.
func TestDocumentReads(t *testing.T) { rendertest.Reads(t, "when", sample().Document()) }

// The files, the columns of tables and the members of JSON are part of the
// output format.
func TestDocumentLeaves(t *testing.T) { rendertest.Leaves(t, "when", sample().Document()) }

// The picture says in words what it shows.
func TestDocumentDraws(t *testing.T) {
	rendertest.Draws(t, sample().Document(), units.US, []string{"keep the service target", "slow", "as expected", "handbook", "invented data", "2027"}, nil)
}

// The picture counts the vessels that the file adds from the year on in which they
// come, for the handbook's estimate beside them is of all that are needed.
func TestDrawsVesselsThatTheFileAdds(t *testing.T) {
	a := sample()
	before := a.Document().Figures[0]
	for y := 2; y < len(a.Added); y++ {
		a.Added[y] = 4
	}
	after := a.Document().Figures[0]
	for i := 2; i < len(after.Panels[0].Series); i++ {
		was, is := before.Panels[0].Series[i].Values, after.Panels[0].Series[i].Values
		for y := range is {
			if want := was[y] + float64(a.Added[y]); is[y] != want && !(math.IsNaN(is[y]) && math.IsNaN(want)) {
				t.Errorf("line %d, year %d: %v, want %v", i, y, is[y], want)
			}
		}
	}
	if before.Panels[0].Y != "vessels" || after.Panels[0].Y != "vessels, with those that the file adds" {
		t.Errorf("the axis says %q, and with vessels added %q", before.Panels[0].Y, after.Panels[0].Y)
	}
}

// Recovered chips are named as the reason only where loads do hold less.
func TestNamesTheReason(t *testing.T) {
	const reason = "recovered chips are heavier"
	for _, c := range []struct {
		cake float64
		want bool
	}{{1840, true}, {2100, false}, {2200, false}} {
		a := sample()
		a.Main().Rows[0].CakePerLoad = c.cake
		text := rendertest.Text(t, a.Document(), units.SI)
		if got := strings.Contains(strings.ReplaceAll(text, "\n  ", " "), reason); got != c.want {
			t.Errorf("%g kg of cake where the handbook has 2110: the reason is named: %v", c.cake, got)
		}
	}
}

// However many vessels and growth scenarios there are, one screen is enough, and
// the last row of each is there.
func TestFitsTheScreen(t *testing.T) {
	a := sample()
	long := a.Growths[1]
	for len(long.Rows) < 30 {
		r := long.Rows[1]
		r.Vessels += len(long.Rows)
		long.Rows = append(long.Rows, r)
	}
	fast := long
	long.Weight, fast.Weight, fast.Name = 0.5, 0.2, "fast"
	a.Growths = []vesselplan.Growth{a.Growths[0], long, fast}
	text := rendertest.Text(t, a.Document(), units.US)
	if n := strings.Count(text, "\n"); n > 42 {
		t.Errorf("%d lines:\n%s", n, text)
	}
	if n := strings.Count(text, "   38 "); n != 2 {
		t.Errorf("the last rows are there %d times:\n%s", n, text)
	}
}

// between makes the first year missed lie between two years.
func between(from, to int) func(*vesselplan.Answer, *vesselplan.Growth) {
	return func(_ *vesselplan.Answer, g *vesselplan.Growth) {
		g.Rows[0].Between.From, g.Rows[0].Between.To = from, to
	}
}

// late makes a row miss the target from the start.
func late(r *vesselplan.Row, missed int) {
	r.LastKept, r.FirstMissed = -1, missed
	r.NeededBy = calendar.Date{Year: 2027, Month: 4, Day: 1}
	r.OrderBy = r.NeededBy.AddMonths(-12)
}

// The first line answers whatever the answer is.
func TestHeadlines(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func(*vesselplan.Answer, *vesselplan.Growth)
		want  string
	}{
		{"order", func(*vesselplan.Answer, *vesselplan.Growth) {},
			"Order more vessels by the end of the second quarter of 2036, to be in use by 1 July 2037: 8 vessels keep the service target through 2036 and no longer. It is 90 % sure that the order is due between Q2 2034 and Q2 2037. With 2 more it holds through 2046."},
		{"how far off is not known", func(_ *vesselplan.Answer, g *vesselplan.Growth) { g.Rows[0].Between = nil },
			"8 vessels keep the service target through 2036 and no longer. With 2 more it holds through 2046."},
		{"certain", between(10, 10), "and no longer. That is 90 % sure. With 2 more"},
		{"perhaps at once", between(0, 11), "It is 90 % sure that the order is due by Q2 2037."},
		{"perhaps never", between(9, 20), "It is 90 % sure that no order is due before Q2 2035."},
		{"anything", between(0, 20), "When it is due can hardly be told: at once, or not within the horizon."},
		{"none needed", func(_ *vesselplan.Answer, g *vesselplan.Growth) { g.Rows = g.Rows[2:] },
			"10 vessels keep the service target in every year through 2046: no more need be ordered."},
		{"late", func(_ *vesselplan.Answer, g *vesselplan.Growth) {
			late(&g.Rows[0], 0)
			g.Rows[0].Between = nil
		},
			"Order more vessels at once: 8 vessels miss the service target from the start, and an order takes 12 months. With 2 more it holds through 2046."},
		{"late and unsure", func(_ *vesselplan.Answer, g *vesselplan.Growth) {
			late(&g.Rows[0], 3)
		},
			"Order more vessels at once: 8 vessels may miss the service target from the start, and an order takes 12 months."},
		{"unsure", func(_ *vesselplan.Answer, g *vesselplan.Growth) { g.Rows[0].FirstMissed = 12 },
			"through 2036 and no longer for sure (2037 to 2038 are too near to the target to tell)."},
		{"perhaps enough", func(_ *vesselplan.Answer, g *vesselplan.Growth) { g.Rows[2].LastKept = 16 },
			"With 2 more it holds through 2043, and what comes after is too near to the target to tell."},
		{"not enough", func(_ *vesselplan.Answer, g *vesselplan.Growth) { g.Rows = g.Rows[:2] },
			"Even 9 do not last through 2046."},
		{"no help", func(_ *vesselplan.Answer, g *vesselplan.Growth) {
			g.Rows = g.Rows[:2]
			g.Rows[1].LastKept = g.Rows[0].LastKept
		}, "More vessels do not help: from 2037 the service target is missed with 8 vessels as with 9 vessels. Beside vessels, solids wait most for space on the curing pad."},
	} {
		a := sample()
		c.alter(a, a.Main())
		if got := a.Document().Headline.Plain(units.US); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}

// The quarters of the table are whole ones to come, and there are none where vessels
// do not help. The sample starts on 1 January 2027.
func TestQuarters(t *testing.T) {
	day := func(year, month, day int) calendar.Date {
		return calendar.Date{Year: year, Month: time.Month(month), Day: day}
	}
	for _, c := range []struct {
		name             string
		needed, order    calendar.Date
		help             bool
		there, orderedBy string
	}{
		{"in time", day(2029, 4, 1), day(2028, 4, 1), true, "Q1 2029", "Q1 2028"},
		{"in the first quarter", day(2028, 2, 15), day(2027, 2, 15), true, "Q4 2027", "at once"},
		{"before the start", day(2027, 10, 1), day(2026, 10, 1), true, "Q3 2027", "at once"},
		{"needed at the start", day(2027, 1, 1), day(2026, 1, 1), true, "at once", "at once"},
		{"no help", day(2029, 4, 1), day(2028, 4, 1), false, "-", "-"},
	} {
		a := sample()
		g := a.Main()
		if !c.help {
			g.Rows = g.Rows[:2]
			g.Rows[1].LastKept = g.Rows[0].LastKept
		}
		r := &g.Rows[0]
		r.NeededBy, r.OrderBy = c.needed, c.order
		quarter := func(d vesselplan.Due, more bool) string {
			if !more {
				return "-"
			}
			return d.String()
		}
		if there, ordered := quarter(a.Needed(g, r)), quarter(a.Ordered(g, r)); there != c.there || ordered != c.orderedBy {
			t.Errorf("%s: there by %q, ordered by %q; want %q, %q", c.name, there, ordered, c.there, c.orderedBy)
		}
	}
}

// rowsOf returns the rows of a CSV file by the names of their columns.
func rowsOf(t *testing.T, d *document.Document, name string) []map[string]string {
	t.Helper()
	files, err := render.CSV(d, units.SI)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if f.Name != name {
			continue
		}
		lines, err := csv.NewReader(strings.NewReader(string(f.Data))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		var rows []map[string]string
		for _, l := range lines[1:] {
			row := map[string]string{}
			for i, cell := range l {
				row[lines[0][i]] = cell
			}
			rows = append(rows, row)
		}
		return rows
	}
	t.Fatalf("there is no %s", name)
	return nil
}

// The tables hold a row for each number of vessels and each year, and what was
// not simulated follows from what was.
func TestTables(t *testing.T) {
	a := sample()
	if got := len(rowsOf(t, a.Document(), "when.csv")); got != 4 {
		t.Errorf("%d rows", got)
	}
	years := rowsOf(t, a.Document(), "when-years.csv")
	if got, want := len(years), 4*a.Horizon; got != want {
		t.Fatalf("%d years, not %d", got, want)
	}
	verdicts := map[string]string{}
	for _, row := range years {
		if row["growth"] == "as expected" && row["vessels"] == "9" {
			verdicts[row["year"]] = row["verdict"] + " " + row["simulated_runs"]
		}
	}
	for year, want := range map[string]string{"2030": "kept 0", "2039": "kept 40", "2040": "too near to tell 96", "2041": "missed 8", "2046": "after the first missed 0"} {
		if verdicts[year] != want {
			t.Errorf("%s: %q, not %q", year, verdicts[year], want)
		}
	}
}

// The screen, JSON, CSV and the picture say the same of one answer: whether the
// order is late, by when it is due, what is enough, and what is short next. An
// order whose quarter has begun at the start is late in all of them.
func TestRenderingsAgree(t *testing.T) {
	day := func(year, month, day int) calendar.Date {
		return calendar.Date{Year: year, Month: time.Month(month), Day: day}
	}
	for _, c := range []struct {
		name                 string
		needed, order        calendar.Date
		help                 bool
		headline, cells      string // on the screen; there and ordered
		advice, there, byEnd string
		late                 bool
		neededBy, orderBy    string
		enough               any
	}{
		{name: "in time", needed: day(2037, 7, 1), order: day(2036, 7, 1), help: true, headline: "Order more vessels by the end of the second quarter of 2036", cells: "Q2 2037 Q2 2036",
			advice: "order in time", there: "Q2 2037", byEnd: "Q2 2036", neededBy: "2037-07-01", orderBy: "2036-07-01", enough: 10.0},
		{name: "the quarter has begun", needed: day(2028, 2, 15), order: day(2027, 2, 15), help: true, headline: "Order more vessels at once", cells: "Q4 2027 at once",
			advice: "order at once", there: "Q4 2027", byEnd: "at once", late: true, neededBy: "2028-02-15", orderBy: "2027-02-15", enough: 10.0},
		{name: "before the start", needed: day(2027, 1, 1), order: day(2026, 1, 1), help: true, headline: "Order more vessels at once", cells: "at once at once",
			advice: "order at once", there: "at once", byEnd: "at once", late: true, neededBy: "2027-01-01", orderBy: "2026-01-01", enough: 10.0},
		{name: "no help", needed: day(2037, 7, 1), order: day(2036, 7, 1), headline: "More vessels do not help", cells: "- -", advice: "more vessels do not help"},
	} {
		a := sample()
		g := a.Main()
		g.Rows[0].NeededBy, g.Rows[0].OrderBy, g.Rows[0].Between = c.needed, c.order, nil
		if !c.help {
			g.Rows = g.Rows[:2]
			g.Rows[1].LastKept = g.Rows[0].LastKept
		}
		d := a.Document()

		screen := rendertest.Text(t, d, units.SI)
		row := ""
		for line := range strings.Lines(screen) {
			if strings.HasPrefix(line, "as expected ") {
				row = strings.Join(strings.Fields(line), " ")
			}
		}
		if !strings.HasPrefix(screen, c.headline) || !strings.Contains(row, ") "+c.cells+" ") || !strings.Contains(screen, "Next limit after vessels: product demand") {
			t.Errorf("%s: on the screen\n%s", c.name, screen)
		}
		var got struct {
			Headline string
			Growths  []struct {
				Growth, Advice   string
				BelievedInMost   bool   `json:"believed_in_most"`
				NextLimit        string `json:"next_limit"`
				Help             bool   `json:"more_vessels_help"`
				VesselsToTheEnd  any    `json:"vessels_to_the_end"`
				ShortBesidesThem string `json:"short_beside_vessels"`
				Vessels          []struct {
					Vessels  int
					NeededBy string `json:"needed_by"`
					There    string `json:"needed_by_end_of"`
					OrderBy  string `json:"order_by"`
					ByEnd    string `json:"order_by_end_of"`
					Late     bool   `json:"order_is_late"`
				}
			}
		}
		if err := json.Unmarshal(rendertest.JSON(t, d, units.SI), &got); err != nil {
			t.Fatal(err)
		}
		in := got.Growths[1]
		first := in.Vessels[0]
		if !strings.HasPrefix(got.Headline, c.headline) || !in.BelievedInMost || in.Advice != c.advice || in.Help != c.help || in.VesselsToTheEnd != c.enough ||
			in.NextLimit != "product demand" || first.NeededBy != c.neededBy || first.There != c.there || first.OrderBy != c.orderBy || first.ByEnd != c.byEnd || first.Late != c.late {
			t.Errorf("%s: JSON says %+v", c.name, in)
		}
		if (in.ShortBesidesThem == "space on the curing pad") == c.help {
			t.Errorf("%s: JSON says that %q is short beside vessels", c.name, in.ShortBesidesThem)
		}
		for _, r := range rowsOf(t, d, "when.csv") {
			if r["growth"] != "as expected" || r["vessels"] != "8" {
				continue
			}
			late := map[bool]string{true: "true", false: "false"}[c.late]
			if r["needed_by"] != c.neededBy || r["needed_by_end_of"] != c.there || r["order_by"] != c.orderBy || r["order_by_end_of"] != c.byEnd || r["order_is_late"] != late {
				t.Errorf("%s: CSV says %v", c.name, r)
			}
		}
		steps := d.Figures[0].Panels[0].Series[3].Values
		if reaches := steps[len(steps)-1] == 10; steps[0] != 8 || reaches != c.help {
			t.Errorf("%s: the picture steps %v", c.name, steps)
		}
	}
}

// What follows the installed vessels carries to the end, perhaps to the end, or
// not, and the row is the fewest that do.
func TestEnough(t *testing.T) {
	for _, c := range []struct {
		name         string
		kept, missed int // of the last row
		vessels      int
		reach        vesselplan.Reach
	}{
		{"to the end", 19, 20, 10, vesselplan.ToTheEnd},
		{"too near to tell", 17, 20, 10, vesselplan.PerhapsTheEnd},
		{"missed", 17, 18, 10, vesselplan.NotTheEnd},
	} {
		a := sample()
		g := a.Main()
		g.Rows[2].LastKept, g.Rows[2].FirstMissed = c.kept, c.missed
		if r, reach := a.Enough(g); r.Vessels != c.vessels || reach != c.reach {
			t.Errorf("%s: %d vessels, %v", c.name, r.Vessels, reach)
		}
	}
}

// The next limit is the least of what more vessels, and places for them, do
// nothing for.
func TestNextLimit(t *testing.T) {
	g := sample().Main()
	g.Next = append(g.Next, plant.Capacity{Stage: plant.AtPlaces, CakeDry: 950})
	if c, known := g.NextLimit(); !known || c.Stage != plant.AtDemand {
		t.Errorf("%+v, %t", c, known)
	}
	g.Next = []plant.Capacity{{Stage: plant.AtVessels, CakeDry: 900}}
	if c, known := g.NextLimit(); known {
		t.Errorf("%+v beside vessels, of which nothing is known", c)
	}
}
