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
	"loamcast/scenarios/capability"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// sample has invented figures: over all growths a row that is sure, one that is
// not, and one that lasts; and two growths.
func sample() *vesselplan.Answer {
	share := func(estimate, low, high float64) stats.Interval {
		return stats.Interval{Estimate: estimate, Low: low, High: high, Level: 0.9}
	}
	// rising is kept through a year, by the estimate, and missed from the next.
	rising := func(kept int) []stats.Interval {
		out := make([]stats.Interval, 20)
		for y := range out {
			at := 0.0375 * math.Pow(2, float64(y-kept))
			out[y] = share(min(1, at), min(1, 0.7*at), min(1, 1.4*at))
		}
		return out
	}
	row := func(vessels, kept, missed, short int) vesselplan.Row {
		r := vesselplan.Row{Vessels: vessels, LastKept: kept, FirstMissed: missed, Shares: rising(short/4 - 1), Short: short, ShortTo: short,
			StaticAverage: 20, StaticPeak: 16, Stay: 19.9, StaticStay: 19.5, CakePerLoad: 1840, StaticCakePerLoad: 2110, Limit: capability.Lack{Waits: plant.NoCuringSpace}}
		r.NeededBy = calendar.Date{Year: 2027, Month: 1, Day: 1}.AddMonths(3 * short)
		r.OrderBy = r.NeededBy.AddMonths(-12)
		return r
	}
	first, second, lasts := row(8, 9, 10, 42), row(9, 12, 14, 54), row(10, 19, 20, 80)
	first.ShortTo = 46
	lasts.CakePerLoad = 0
	basis := rendertest.Basis().Replicated(0)
	basis.Start, basis.Horizon = calendar.Date{Year: 2027, Month: 1, Day: 1}, 20
	basis.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	a := &vesselplan.Answer{
		Basis: basis, Wrong: 0.1, Runs: 64, Lead: calendar.Span{Months: 12}, Installed: 8, Added: make([]int, 20),
		All: vesselplan.Growth{Scenario: answer.Scenario{Name: "all by weight", Weight: 1}, Rows: []vesselplan.Row{first, second, lasts}, Fed: 700, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20)},
		Growths: []vesselplan.Growth{
			{Scenario: answer.Scenario{Name: "slow", Weight: 0.3}, Rows: []vesselplan.Row{row(8, 15, 16, 66)}, Fed: 600, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20)},
			{Scenario: answer.Scenario{Name: "as expected", Weight: 0.7}, Rows: []vesselplan.Row{row(8, 10, 11, 46), row(9, 12, 14, 58), row(10, 19, 20, 80)}, Fed: 760, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20),
				Next: []plant.Capacity{{Stage: plant.AtVessels, CakeDry: 900}, {Stage: plant.AtDemand, CakeDry: 1100}, {Stage: plant.AtMixer, CakeDry: 6000}}},
		},
		Capability: []vesselplan.Capability{
			{Vessels: 8, AtTarget: share(596, 590, 603), Half: share(648, 641, 655)},
			{Vessels: 9, AtTarget: share(672, 665, 680), Half: share(730, 722, 739)},
			{Vessels: 10, AtTarget: share(748, 740, 757), Half: share(813, 804, 823)},
		},
		Batch: vesselplan.Batch{Vessels: 2, Why: vesselplan.ByWorth, Next: 80, Worth: 260e3, OneByOne: 275e3},
		Sign: &vesselplan.Sign{Sign: capability.Sign{Production: 570, Late: 0.02, ByGrowth: []float64{0.01, 0.024},
			From: calendar.Date{Year: 2031, Month: 3, Day: 1}, To: calendar.Date{Year: 2039, Month: 9, Day: 1}}, Now: 500, InUse: 0.93, Held: 3150, Full: 0.63},
		Simulated: 846,
	}
	for i := range 76 {
		quarter := basis.Start.AddMonths(3 * i)
		late := min(1, 0.03*math.Pow(2, math.Ceil(float64(i-37)/4)))
		a.Orders = append(a.Orders, vesselplan.Order{Quarter: quarter, InUse: quarter.AddMonths(15), Late: share(late, 0.7*late, min(1, 1.4*late)),
			ByGrowth: []float64{late / 4, min(1, 1.3*late)}, Untreated: 2000 * late, Cost: 900 * late})
	}
	return a
}

// The staircase reads as reviewed, in both systems of units, on one screen.
func TestDocumentReads(t *testing.T) { rendertest.Reads(t, "when", sample().Document()) }

// The files, the columns of tables and the members of JSON are part of the
// output format.
func TestDocumentLeaves(t *testing.T) { rendertest.Leaves(t, "when", sample().Document()) }

// The picture says in words what it shows.
func TestDocumentDraws(t *testing.T) {
	rendertest.Draws(t, sample().Document(), units.US, []string{"keep the service target", "slow", "as expected", "handbook", "invented data", "2027", "Waiting from", "latest order", "all growths", "installed", "order 9"}, nil)
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
	for i := range after.Panels[0].Series {
		if name := after.Panels[0].Series[i].Name.Plain(units.US); strings.HasPrefix(name, "handbook") || strings.HasPrefix(name, "order") {
			continue
		}
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
		text := ""
		for _, block := range a.Document().Blocks {
			if p, ok := block.(document.Paragraph); ok {
				text += p.Text.Plain(units.SI)
			}
		}
		if got := strings.Contains(text, reason); got != c.want {
			t.Errorf("%g kg of cake where the handbook has 2110: the reason is named: %v", c.cake, got)
		}
	}
}

// However many vessels and growth scenarios there are, one screen is enough, and
// the last row over all growths is there.
func TestFitsTheScreen(t *testing.T) {
	a := sample()
	for len(a.All.Rows) < 30 {
		r := a.All.Rows[1]
		r.Vessels += len(a.All.Rows)
		a.All.Rows = append(a.All.Rows, r)
	}
	fast := a.Growths[1]
	a.Growths[1].Weight, fast.Weight, fast.Name = 0.5, 0.2, "fast"
	a.Growths = append(a.Growths, fast)
	for i := range a.Orders {
		a.Orders[i].ByGrowth = append(a.Orders[i].ByGrowth, a.Orders[i].Late.Estimate)
	}
	text := rendertest.Text(t, a.Document(), units.US)
	if n := strings.Count(text, "\n"); n > 42 {
		t.Errorf("%d lines:\n%s", n, text)
	}
	if n := strings.Count(text, "   38 "); n != 1 {
		t.Errorf("the last row is there %d times:\n%s", n, text)
	}
}

// The sign is told with what is seen beside it, and how often it does not come.
func TestSignInWords(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func(*vesselplan.Answer)
		want  string
	}{
		{"between two years", func(*vesselplan.Answer) {},
			"What to watch each month: order 2 vessels, whatever the date, once the mean production of the last twelve months passes 0.57 t/day of dry solids (0.5 t/day today). That leaves the 12 months that vessels take, under every growth: the chance of being late is then 2 %. Expected between 2031 and 2039, with 93 % of the vessels in use in the fullest month and the holding up to 63 % full (3.15 t dry)."},
		{"perhaps never", func(a *vesselplan.Answer) { a.Sign.To, a.Sign.Never = a.Start.AddYears(a.Horizon), 0.07 },
			"Expected from 2031 on, with 93 % of the vessels in use in the fullest month and the holding up to 63 % full (3.15 t dry); in 7 % of futures it does not come within the horizon."},
		{"one growth", func(a *vesselplan.Answer) {
			a.Growths = a.Growths[1:]
			for i := range a.Orders {
				a.Orders[i].ByGrowth = a.Orders[i].ByGrowth[1:]
			}
		}, "That leaves the 12 months that vessels take: the chance"},
	} {
		a := sample()
		c.alter(a)
		said := ""
		for _, block := range a.Document().Blocks {
			if p, ok := block.(document.Paragraph); ok {
				said += p.Text.Plain(units.SI) + "\n"
			}
		}
		if !strings.Contains(said, c.want) {
			t.Errorf("%s: %s", c.name, said)
		}
	}
}

// between makes the quarter in which vessels run short lie between two.
func between(from, to int) func(*vesselplan.Answer) {
	return func(a *vesselplan.Answer) {
		r := &a.All.Rows[0]
		r.Short, r.ShortTo = from, to
		r.NeededBy = a.Start.AddMonths(3 * from)
		r.OrderBy = r.NeededBy.AddMonths(-12)
	}
}

// late makes vessels run short in the second quarter of the first year.
func late(a *vesselplan.Answer) {
	r := &a.All.Rows[0]
	r.LastKept, r.FirstMissed, r.Short, r.ShortTo = -1, 0, 1, 1
	r.NeededBy = calendar.Date{Year: 2027, Month: 4, Day: 1}
	r.OrderBy = r.NeededBy.AddMonths(-12)
	for i := range a.Orders {
		a.Orders[i].Late.Estimate = max(0.3, a.Orders[i].Late.Estimate)
	}
}

// noHelp makes every number of vessels run short in the same quarter.
func noHelp(a *vesselplan.Answer) {
	for i := range a.All.Rows {
		a.All.Rows[i].Short = a.All.Rows[0].Short
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

// The tables hold a row for each number of vessels and each year.
func TestTables(t *testing.T) {
	a := sample()
	if got := len(rowsOf(t, a.Document(), "when.csv")); got != 7 {
		t.Errorf("%d rows", got)
	}
	if got := len(rowsOf(t, a.Document(), "when-orders.csv")); got != len(a.Orders) {
		t.Errorf("%d orders", got)
	}
	years := rowsOf(t, a.Document(), "when-years.csv")
	if got, want := len(years), 7*a.Horizon; got != want {
		t.Fatalf("%d years, not %d", got, want)
	}
	verdicts := map[string]string{}
	for _, row := range years {
		if row["growth"] == "all by weight" && row["vessels"] == "9" {
			verdicts[row["year"]] = row["verdict"] + " " + row["missing_percent"]
		}
	}
	for year, want := range map[string]string{"2039": "kept 3.75", "2040": "too near to tell 7.5", "2041": "missed 15", "2046": "after the first missed 100"} {
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
		{name: "in time", needed: day(2037, 7, 1), order: day(2036, 7, 1), help: true, headline: "Order 2 vessels by the end of the second quarter of 2036", cells: "Q2 2037 Q2 2036",
			advice: "order in time", there: "Q2 2037", byEnd: "Q2 2036", neededBy: "2037-07-01", orderBy: "2036-07-01", enough: 10.0},
		{name: "the quarter has begun", needed: day(2028, 2, 15), order: day(2027, 2, 15), help: true, headline: "Order 2 vessels at once", cells: "Q4 2027 at once",
			advice: "order at once", there: "Q4 2027", byEnd: "at once", late: true, neededBy: "2028-02-15", orderBy: "2027-02-15", enough: 10.0},
		{name: "before the start", needed: day(2027, 1, 1), order: day(2026, 1, 1), help: true, headline: "Order 2 vessels at once", cells: "at once at once",
			advice: "order at once", there: "at once", byEnd: "at once", late: true, neededBy: "2027-01-01", orderBy: "2026-01-01", enough: 10.0},
		{name: "no help", needed: day(2037, 7, 1), order: day(2036, 7, 1), headline: "More vessels do not help", cells: "- -", advice: "more vessels do not help"},
	} {
		a := sample()
		a.All.Next = a.Main().Next
		a.All.Rows[0].NeededBy, a.All.Rows[0].OrderBy = c.needed, c.order
		if !c.help {
			noHelp(a)
		}
		d := a.Document()

		screen := rendertest.Text(t, d, units.SI)
		row := ""
		for line := range strings.Lines(screen) {
			if strings.HasPrefix(line, "all by weight ") {
				row = strings.Join(strings.Fields(line), " ")
			}
		}
		if !strings.HasPrefix(screen, c.headline) || !strings.Contains(row, ") "+c.cells+" ") {
			t.Errorf("%s: on the screen\n%s", c.name, screen)
		}
		var got struct {
			Headline, Advice string
			OrderByEnd       string `json:"order_by_end_of"`
			Growths          []struct {
				Growth, Advice   string
				OverAll          bool   `json:"over_all"`
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
		in := got.Growths[0]
		first := in.Vessels[0]
		if !strings.HasPrefix(got.Headline, c.headline) || got.Advice != c.advice || got.OrderByEnd != c.byEnd || !in.OverAll || in.Advice != c.advice || in.Help != c.help || c.help && in.VesselsToTheEnd != c.enough ||
			in.NextLimit != "product demand" || first.NeededBy != c.neededBy || first.There != c.there || first.OrderBy != c.orderBy || first.ByEnd != c.byEnd || first.Late != c.late {
			t.Errorf("%s: JSON says %+v", c.name, got)
		}
		if (in.ShortBesidesThem == "space on the curing pad") == c.help {
			t.Errorf("%s: JSON says that %q is short beside vessels", c.name, in.ShortBesidesThem)
		}
		for _, r := range rowsOf(t, d, "when.csv") {
			if r["growth"] != "all by weight" || r["vessels"] != "8" {
				continue
			}
			late := map[bool]string{true: "true", false: "false"}[c.late]
			if r["needed_by"] != c.neededBy || r["needed_by_end_of"] != c.there || r["order_by"] != c.orderBy || r["order_by_end_of"] != c.byEnd || r["order_is_late"] != late {
				t.Errorf("%s: CSV says %v", c.name, r)
			}
		}
	}
}

// What follows the installed vessels carries to the end, perhaps to the end, or
// not, and the row is the fewest that do.
func TestEnough(t *testing.T) {
	for _, c := range []struct {
		name        string
		kept, short int // of the last row
		vessels     int
		reach       vesselplan.Reach
	}{
		{"to the end", 19, 80, 10, vesselplan.ToTheEnd},
		{"too near to tell", 17, 80, 10, vesselplan.PerhapsTheEnd},
		{"missed", 17, 74, 10, vesselplan.NotTheEnd},
	} {
		a := sample()
		g := a.Main()
		g.Rows[2].LastKept, g.Rows[2].Short = c.kept, c.short
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
