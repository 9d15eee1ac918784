package simulate_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/outfile"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/simulate/internal/sample"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// text returns the screen; it takes what both testing and rapid have.
func text(t interface{ Fatal(...any) }, a *simulate.Answer, sys units.System) string {
	var b bytes.Buffer
	if err := render.Text(&b, a.Document(), sys); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// tables returns the CSV files by name.
func tables(t *testing.T, a *simulate.Answer, sys units.System) map[string][][]string {
	t.Helper()
	files, err := render.CSV(a.Document(), sys)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string][][]string{}
	for _, f := range files {
		if all[f.Name], err = csv.NewReader(bytes.NewReader(f.Data)).ReadAll(); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
	}
	return all
}

// The screen reads as reviewed, and so do the names of files, columns and members.
func TestReads(t *testing.T) {
	rendertest.Reads(t, "run", sample.Answer(20).Document())
	rendertest.Leaves(t, "run", sample.Answer(1).Document())
}

// Of more replications than quantiles are exact of, the answer says how well its
// quantiles are known; of as many it need not.
func TestSummaryIsSaid(t *testing.T) {
	a := sample.Answer(3)
	for runs, want := range map[int]bool{answer.ExactRuns: false, answer.ExactRuns + 1: true} {
		a.Replications = runs
		screen := strings.Join(strings.Fields(text(t, a, units.US)), " ")
		if got := strings.Contains(screen, "Of more than 2000 replications quantiles are those of a summary: P10, say, is the figure of one that ranks between 9.9 and 10.1 % of them."); got != want {
			t.Errorf("of %d replications it is said: %v\n%s", runs, got, screen)
		}
	}
}

// The tables of resources, capacities and triggered changes read as reviewed, in
// both systems of units.
func TestResourceTables(t *testing.T) {
	for _, sys := range rendertest.Systems {
		files, err := render.CSV(sample.Answer(2).Document(), sys)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		for _, name := range []string{"tools.csv", "capacity.csv", "triggered.csv"} {
			i := slices.IndexFunc(files, func(f outfile.File) bool { return f.Name == name })
			b.WriteString(name + "\n" + string(files[i].Data) + "\n")
		}
		rendertest.Golden(t, "resources_"+sys.String()+".txt", []byte(b.String()))
	}
}

// Screen, JSON, CSV and picture say the same: when the runs of the file's values miss the target, and
// the figures of the first year.
func TestRenderingsAgree(t *testing.T) {
	a := sample.Answer(20)
	h := a.Headline()
	d := a.Document()
	screen, _, _ := strings.Cut(strings.ReplaceAll(rendertest.Text(t, d, units.SI), "\n  ", " "), "\n")
	var got struct {
		Headline string
		Kept     string           `json:"file_values_last_year_target_kept"`
		Missed   string           `json:"file_values_first_year_target_missed"`
		Years    []map[string]any `json:"years"`
	}
	if err := json.Unmarshal(rendertest.JSON(t, d, units.SI), &got); err != nil {
		t.Fatal(err)
	}
	if screen != h.String() || got.Headline != screen || got.Kept != h.LastKept.Label || got.Missed != h.FirstMissed.Label {
		t.Errorf("the screen says %q, JSON %q, %s and %s", screen, got.Headline, got.Kept, got.Missed)
	}
	rendertest.Draws(t, d, units.SI, []string{h.Title()}, nil)
	missing := longFigure(t, tables(t, a, units.SI)["years.csv"], "value", h.FirstMissed.Label, "runs_missing_target", "%")
	year := slices.IndexFunc(got.Years, func(y map[string]any) bool { return y["year"] == h.FirstMissed.Label })
	if v, err := strconv.ParseFloat(missing, 64); err != nil || v <= 100*a.Target.MissShare || got.Years[year]["runs_missing_target_percent"] != v {
		t.Errorf("in the first year missed CSV has %s %% of runs, JSON %v", missing, got.Years[year]["runs_missing_target_percent"])
	}
}

// longFigure returns a column of the row of a long file that begins with some cells.
func longFigure(t *testing.T, rows [][]string, column string, begins ...string) string {
	t.Helper()
	at := slices.IndexFunc(rows, func(row []string) bool { return slices.Equal(row[:min(len(row), len(begins))], begins) })
	k := slices.Index(rows[0], column)
	if at < 0 || k < 0 {
		t.Fatalf("no %s of %v", column, begins)
	}
	return rows[at][k]
}

// scaleBy multiplies a spread.
func scaleBy(s answer.Spread, f float64) answer.Spread {
	return answer.Spread{Mean: s.Mean * f, P10: s.P10 * f, P50: s.P50 * f, P90: s.P90 * f}
}

// The text fits a screen for any length of the run, size of the plant and length
// of the names.
func TestTextFits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := sample.Answer(rapid.IntRange(1, 45).Draw(t, "years"))
		a.Facility = strings.Repeat("Fennick ", rapid.IntRange(0, 30).Draw(t, "words"))
		a.Balance.WorstAt = strings.Repeat("store ", rapid.IntRange(0, 20).Draw(t, "at"))
		a.Seed = rapid.Uint64().Draw(t, "seed")
		f := rapid.SampledFrom([]float64{0, 1e-3, 1, 37, 300}).Draw(t, "scale")
		broken := rapid.Bool().Draw(t, "school years")
		a.Triggered = changes(rapid.IntRange(0, 6).Draw(t, "changes"), rapid.IntRange(1, 40).Draw(t, "length of their names"))
		a.AirLimit *= f
		for i := range a.Capacities {
			c := &a.Capacities[i]
			c.Arrived, c.ArrivedPeak = scaleBy(c.Arrived, f), scaleBy(c.ArrivedPeak, f)
			for j := range c.Stages {
				c.Stages[j].Sustains *= f
			}
		}
		for i := range a.Years {
			y := &a.Years[i]
			if broken {
				y.Label = fmt.Sprintf("%s/%02d", y.Label, (28+i)%100)
			}
			y.Installed = int(float64(y.Installed) * f)
			y.Air.HoursOver.P50 = min(y.Air.HoursOver.P50, 8784)
			for _, s := range []*answer.Spread{
				&y.FeedDry, &y.FeedWet, &y.DivertedDry, &y.VesselsMean, &y.VesselsPeak, &y.VesselsNeeded,
				&y.ChipsBought, &y.ChipsRecovered, &y.Truckloads, &y.ProductVolume, &y.ProductWet, &y.TakenVolume,
				&y.Air.Peak,
			} {
				*s = scaleBy(*s, f)
			}
		}
		text := text(t, a, rapid.SampledFrom(rendertest.Systems).Draw(t, "system"))
		lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
		if len(lines) > 40 {
			t.Fatalf("%d lines:\n%s", len(lines), text)
		}
		for _, line := range lines {
			if n := utf8.RuneCountInString(line); n > 98 {
				t.Fatalf("%d columns: %q", n, line)
			}
		}
	})
}

// changes returns n changes that came about in most runs, with names of some
// letters.
func changes(n, letters int) []simulate.Triggered {
	list := make([]simulate.Triggered, n)
	for i := range list {
		list[i] = simulate.Triggered{Change: strings.Repeat("w", letters), Share: 0.95, Decided: calendar.Date{Year: 2031, Month: 5, Day: 4}}
	}
	return list
}

// Invented data is called so, and only then; a name from a file cannot move the
// cursor or start a line.
func TestTextIsHonestAndSafe(t *testing.T) {
	a := sample.Answer(3)
	a.Facility = "Fennick\x1b[2J\r\n\tValley\u202e"
	const notice = "INVENTED DATA"
	screen := text(t, a, units.US)
	if !strings.Contains(screen, notice) || !strings.Contains(screen, "Fennick[2JValley") {
		t.Error("invented data is not called so, or the name's own letters are gone")
	}
	a.Invented = false
	screen = text(t, a, units.US)
	for _, bad := range []string{notice, "\x1b", "\r", "\t", "\u202e"} {
		if strings.Contains(screen, bad) {
			t.Errorf("output holds %q", bad)
		}
	}
}

// The text speaks of capacity, air, triggers and failures where there is
// something to say, and only there.
func TestTextSpeaksOfLimitsWhereTheyMatter(t *testing.T) {
	last := func(a *simulate.Answer) *simulate.Year { return &a.Years[len(a.Years)-1] }
	for _, c := range []struct {
		name  string
		alter func(*simulate.Answer)
		label string
		says  string // empty: the label is not there
	}{
		{"the tightest stages", func(*simulate.Answer) {}, "Capacity", "vessels 0.842"},
		{"no stage limits", func(a *simulate.Answer) { a.Capacities[19].Stages = nil }, "Capacity", ""},
		{"over the air there is", func(*simulate.Answer) {}, "Air", "380 h"},
		{"under it", func(a *simulate.Answer) { last(a).Air.HoursOver = answer.Spread{} }, "Air", ""},
		{"no limit", func(a *simulate.Answer) { last(a).Air = nil }, "Air", ""},
		{"triggered", func(*simulate.Answer) {}, "Triggered", "larger pad in 85 % of runs (median 2036-05-04)"},
		{"never triggered", func(*simulate.Answer) {}, "Triggered", "second shift in 0 % of runs"},
		{"more than it names", func(a *simulate.Answer) { a.Triggered = changes(5, 3) }, "Triggered", "; 3 more"},
		{"without triggers", func(a *simulate.Answer) { a.Triggered = nil }, "Triggered", ""},
		{"the longest wait first", func(*simulate.Answer) {}, "Waiting", "in 2046 solids wait for: vessel 53 %, collecting a load 29 %"},
		{"what hardly waits", func(a *simulate.Answer) { a.Waits = a.Waits[3:]; a.Waits[0].Years[19] = 0 }, "Waiting", ""},
	} {
		a := sample.Answer(20)
		c.alter(a)
		screen := text(t, a, units.SI)
		_, line, found := strings.Cut(screen, fmt.Sprintf("\n%-13s", c.label))
		if !found {
			if c.says != "" {
				t.Errorf("%s: nothing on %s", c.name, c.label)
			}
			continue
		}
		line = strings.Join(strings.Fields(line), " ") // lines may break anywhere
		if c.says == "" || !strings.Contains(line, c.says) {
			t.Errorf("%s: says %.120q", c.name, line)
		}
	}
}

// The criterion named is the one that most failed loads missed, where the median
// replication has any.
func TestMainFailure(t *testing.T) {
	for _, c := range []struct {
		failed float64
		want   string
	}{{0.01, ", mostly by heat"}, {0, ""}} {
		a := sample.Answer(2)
		a.FailedBy = []simulate.Cause{{Name: "days", Share: 0.4}, {Name: "heat", Share: 0.6}}
		a.Load.Failed.P50 = c.failed
		cause, ok := a.MainFailure()
		if ok != (c.want != "") || ok && cause.Name != "heat" || strings.Contains(strings.Join(strings.Fields(text(t, a, units.SI)), " "), "mostly by heat") != ok {
			t.Errorf("with %g failed: %v, %v", c.failed, cause, ok)
		}
	}
}

// JSON's values are the answer's, converted: a short ton is 907.18474 kg, a cubic
// yard 0.764554857984 m3 and 1 cfm 1.699010796 m3/h (NIST SP 811, from memory; the
// last derived from its foot).
func TestJSONValues(t *testing.T) {
	a := sample.Answer(2)
	y := &a.Years[1]
	for _, c := range []struct {
		sys        units.System
		mass       string
		kg         float64
		volume     string
		cubicMetre float64
		air        string
		flow       float64
	}{
		{units.US, "_short_ton", 907.18474, "_yd3", 0.764554857984, "air_limit_cfm", 1.699010796},
		{units.SI, "_t", 1000, "_m3", 1, "air_limit_m3_per_h", 1},
	} {
		var got struct {
			Years  []map[string]any
			Months []map[string]any
			Waits  []map[string]any `json:"waits_dry"`
		}
		whole := map[string]any{}
		for _, into := range []any{&got, &whole} {
			if err := json.Unmarshal(rendertest.JSON(t, a.Document(), c.sys), into); err != nil {
				t.Fatal(err)
			}
		}
		if len(got.Years) != 2 || len(got.Months) != 24 {
			t.Fatalf("%d years, %d months", len(got.Years), len(got.Months))
		}
		spread := func(name string) map[string]any { return got.Years[1][name].(map[string]any) }
		for _, v := range []struct {
			got, want float64
		}{
			{spread("feed_dry" + c.mass)["p50"].(float64), y.FeedDry.P50 / c.kg},
			{spread("chips_bought" + c.volume)["p90"].(float64), y.ChipsBought.P90 / c.cubicMetre},
			{spread("diverted_share_percent")["mean"].(float64), y.DivertedShare.Mean * 100},
			{spread("cake_wait_day")["p10"].(float64), y.CakeWait.P10},
			{got.Years[1]["vessels_installed"].(float64), float64(y.Installed)},
			{got.Waits[1]["off_shift"+c.mass+"_day"].(float64), a.Waits[1].Years[1] / c.kg},
			{whole[c.air].(float64), a.AirLimit / c.flow},
		} {
			if math.Abs(v.got-v.want) > 5.1e-6*math.Abs(v.want) {
				t.Errorf("%v: got %v, want %v", c.sys, v.got, v.want)
			}
		}
	}
}

// What is not followed or is no number is empty in CSV and null in JSON.
func TestNotANumber(t *testing.T) {
	a := sample.Answer(1)
	a.AirLimit, a.Years[0].Air = 0, nil
	a.Years[0].DivertedShare = answer.Spread{Mean: math.NaN(), P10: math.Inf(1), P50: math.Inf(-1), P90: 0.5}
	whole := string(rendertest.JSON(t, a.Document(), units.US))
	for _, want := range []string{`"diverted_share_percent":{"mean":null,"p10":null,"p50":null,"p90":50}`, `"air_limit_cfm":null`, `"air_mean_cfm":{"mean":null,`} {
		if !strings.Contains(whole, want) {
			t.Errorf("JSON does not hold %s", want)
		}
	}
	years := tables(t, a, units.US)["years.csv"]
	for _, row := range years[1:] {
		name := row[1]
		none := strings.HasPrefix(name, "air_") || name == "hours_over_air_limit" || name == "diverted_share"
		if empty := row[3] == ""; empty != none {
			t.Errorf("%s: %q", name, row)
		}
		if name == "diverted_share" && (row[5] != "" || row[6] != "50") {
			t.Errorf("%s: %q", name, row)
		}
	}
}

// Pictures of short and of long runs, of empty plants and of numbers that are
// none can be drawn, each named and twice the same, with the units of the system;
// where the need is unknown it is not named.
func TestFigures(t *testing.T) {
	none := answer.Spread{Mean: math.NaN(), P10: math.NaN(), P50: math.NaN(), P90: math.NaN()}
	empty := sample.Answer(2)
	empty.Flows = nil
	for i := range empty.Years {
		empty.Years[i] = simulate.Year{Label: empty.Years[i].Label, DivertedDry: none, ChipsBought: none, VesselsNeeded: none}
	}
	for i := range empty.Months {
		empty.Months[i] = simulate.Month{Year: empty.Months[i].Year, Month: empty.Months[i].Month, VesselsMean: none}
	}
	told := []string{"vessels in use by month", "water and air included", "handbook estimate", "demand not met",
		"hauled away untreated", "Fresh chips to buy", "Volumes of compost", "Of the mass that comes in"}
	subjects := []string{"Vessels in use by month", "Where the mass goes", "handbook estimate", "demand not met", "Wood chips each year"}
	for _, c := range []struct {
		answer     *simulate.Answer
		sys        units.System
		words, not []string
	}{
		{sample.Answer(1), units.US, append([]string{"yd3 a year", "short tons dry a year", "short tons a year, water and air included", "needed, median"}, told...), nil},
		{sample.Answer(60), units.SI, append([]string{"m3 a year", "t dry a year", "· t a year, water and air included", "2077"}, told...), nil},
		{empty, units.US, subjects, []string{"NaN", "Inf", "needed, median"}},
	} {
		rendertest.Draws(t, c.answer.Document(), c.sys, c.words, c.not)
	}
}
