package report

import (
	"bytes"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// sampleStaircase has invented figures, with a row that is sure, one that is not,
// one that lasts, and a scenario beside it.
func sampleStaircase() *vesselplan.Answer {
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
	return &vesselplan.Answer{
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Invented: true, Version: "0", Seed: 1,
		Start: calendar.Date{Year: 2027, Month: 1, Day: 1}, Years: 20, Target: facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05},
		Test: stats.ShareTest{Low: 0.02, High: 0.1, WrongAbove: 0.05, WrongBelow: 0.05}, Most: 96, LeadDays: 365, Installed: 8,
		Growths: []vesselplan.Growth{
			{Name: "slow", Weight: 0.3, Rows: []vesselplan.Row{slow}, Fed: 600, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20)},
			{Name: "as expected", Weight: 0.7, Rows: []vesselplan.Row{first, second, lasts}, Fed: 760, StaticMean: make([]float64, 20), StaticPeak: make([]float64, 20),
				Next: []plant.Capacity{{Stage: plant.AtVessels, CakeDry: 900}, {Stage: plant.AtDemand, CakeDry: 1100}, {Stage: plant.AtMixer, CakeDry: 6000}}},
		},
		Simulated: 846, Whole: 14112,
	}
}

// The staircase reads as reviewed, in both systems of units, on one screen.
func TestStaircaseGolden(t *testing.T) {
	for _, sys := range systems {
		var b bytes.Buffer
		if err := StaircaseTerminal(&b, sampleStaircase(), sys); err != nil {
			t.Fatal(err)
		}
		golden(t, "when_"+sys.String()+".txt", b.Bytes())
		lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
		if len(lines) > 40 {
			t.Errorf("%d lines", len(lines))
		}
		for _, line := range lines {
			if utf8.RuneCountInString(line) > screenColumns {
				t.Errorf("too long: %s", line)
			}
		}
	}
}

// Recovered chips are named as the reason only where loads do hold less.
func TestStaircaseNamesTheReason(t *testing.T) {
	const reason = "recovered chips are heavier"
	for _, c := range []struct {
		cake float64
		want bool
	}{{1840, true}, {2100, false}, {2200, false}} {
		a := sampleStaircase()
		a.Main().Rows[0].CakePerLoad = c.cake
		var b bytes.Buffer
		if err := StaircaseTerminal(&b, a, units.SI); err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(strings.ReplaceAll(b.String(), "\n  ", " "), reason); got != c.want {
			t.Errorf("%g kg of cake where the handbook has 2110: the reason is named: %v", c.cake, got)
		}
	}
}

// However many vessels and growth scenarios there are, one screen is enough, and
// the last row of each is there.
func TestStaircaseFitsTheScreen(t *testing.T) {
	a := sampleStaircase()
	long := a.Growths[1]
	for len(long.Rows) < 30 {
		r := long.Rows[1]
		r.Vessels += len(long.Rows)
		long.Rows = append(long.Rows, r)
	}
	fast := long
	long.Weight, fast.Weight, fast.Name = 0.5, 0.2, "fast"
	a.Growths = []vesselplan.Growth{a.Growths[0], long, fast}
	var b bytes.Buffer
	if err := StaircaseTerminal(&b, a, units.US); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(b.String(), "\n"); n > 42 {
		t.Errorf("%d lines:\n%s", n, b.String())
	}
	if n := strings.Count(b.String(), "   38 "); n != 2 {
		t.Errorf("the last rows are there %d times:\n%s", n, b.String())
	}
}

// between makes the first year missed lie between two years.
func between(from, to int) func(*vesselplan.Answer, *vesselplan.Growth) {
	return func(_ *vesselplan.Answer, g *vesselplan.Growth) {
		g.Rows[0].Between.From, g.Rows[0].Between.To = from, to
	}
}

// The first line answers whatever the answer is.
func TestStaircaseHeadlines(t *testing.T) {
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
			g.Rows[0].LastKept, g.Rows[0].FirstMissed, g.Rows[0].Late, g.Rows[0].Between = -1, 0, true, nil
		},
			"Order more vessels at once: 8 vessels miss the service target from the start, and an order takes 12 months. With 2 more it holds through 2046."},
		{"late and unsure", func(_ *vesselplan.Answer, g *vesselplan.Growth) {
			g.Rows[0].LastKept, g.Rows[0].FirstMissed, g.Rows[0].Late = -1, 3, true
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
		a := sampleStaircase()
		c.alter(a, a.Main())
		if got := plainSpaces(staircase{newPage(units.US), a}.headline()); !strings.Contains(got, c.want) {
			t.Errorf("%s: %s", c.name, got)
		}
	}
}

// The quarters of the table are whole ones to come, and there are none where vessels
// do not help. The sample starts on 1 January 2027.
func TestStaircaseQuarters(t *testing.T) {
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
		a := sampleStaircase()
		g := a.Main()
		if !c.help {
			g.Rows = g.Rows[:2]
			g.Rows[1].LastKept = g.Rows[0].LastKept
		}
		r := &g.Rows[0]
		r.NeededBy, r.OrderBy, r.Late = c.needed, c.order, c.order.Before(a.Start)
		s := staircase{newPage(units.US), a}
		if there, ordered := s.there(g, r), s.ordered(g, r); there != c.there || ordered != c.orderedBy {
			t.Errorf("%s: there by %q, ordered by %q; want %q, %q", c.name, there, ordered, c.there, c.orderedBy)
		}
	}
}

// The tables hold a row for each number of vessels and each year, and what was
// not simulated follows from what was.
func TestStaircaseTables(t *testing.T) {
	a := sampleStaircase()
	s := staircase{newPage(units.SI), a}
	if got := len(s.rows()) - 1; got != 4 {
		t.Errorf("%d rows", got)
	}
	years := s.yearRows()
	if got, want := len(years)-1, 4*a.Years; got != want {
		t.Fatalf("%d years, not %d", got, want)
	}
	verdicts := map[string]string{}
	for _, row := range years[1:] {
		if row[0] == "as expected" && row[1] == "9" {
			verdicts[row[2]] = row[3] + " " + row[4]
		}
	}
	for year, want := range map[string]string{"2030": "kept 0", "2039": "kept 40", "2040": "too near to tell 96", "2041": "missed 8", "2046": "after the first missed 0"} {
		if verdicts[year] != want {
			t.Errorf("%s: %q, not %q", year, verdicts[year], want)
		}
	}
	var b bytes.Buffer
	if err := StaircaseJSON(&b, a, units.US); err != nil {
		t.Fatal(err)
	}
	golden(t, "when_json_keys.txt", []byte(keyPaths(t, &b)))
}
