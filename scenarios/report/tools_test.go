package report

import (
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/report/internal/sample"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// The tables of tools, capacities and triggered changes read as reviewed, in
// both systems of units.
func TestToolTablesGolden(t *testing.T) {
	for _, sys := range systems {
		files, err := CSV(sample.Answer(2), sys)
		if err != nil {
			t.Fatal(err)
		}
		var b strings.Builder
		for _, f := range files {
			if slices.Contains([]string{"tools.csv", "capacity.csv", "triggered.csv"}, f.Name) {
				b.WriteString(f.Name + "\n" + string(f.Data) + "\n")
			}
		}
		golden(t, "tools_"+sys.String()+".txt", []byte(b.String()))
	}
}

// The screen speaks of capacity, air and triggers where there is something to
// say, and only there.
func TestTerminalSpeaksOfLimitsWhereTheyMatter(t *testing.T) {
	last := func(a *simulate.Answer) *simulate.Year { return &a.Years[len(a.Years)-1] }
	for _, c := range []struct {
		name  string
		alter func(*simulate.Answer)
		label string
		says  string // empty: the label is not there
	}{
		{"the tightest stages", func(*simulate.Answer) {}, "Capacity", "vessels 0.842"},
		{"no capacities", func(a *simulate.Answer) { a.Capacities = nil }, "Capacity", ""},
		{"over the air there is", func(*simulate.Answer) {}, "Air", "380 h"},
		{"under it", func(a *simulate.Answer) { last(a).Air.HoursOver = answer.Spread{} }, "Air", ""},
		{"no limit", func(a *simulate.Answer) { last(a).Air = nil }, "Air", ""},
		{"triggered", func(*simulate.Answer) {}, "Triggered", "larger pad in 85 % of runs (median 2036-05-04)"},
		{"never triggered", func(*simulate.Answer) {}, "Triggered", "second shift in 0 % of runs"},
		{"more than it names", func(a *simulate.Answer) { a.Triggered = changes(5, 3) }, "Triggered", "; 3 more"},
		{"without triggers", func(a *simulate.Answer) { a.Triggered = nil }, "Triggered", ""},
	} {
		a := sample.Answer(20)
		c.alter(a)
		text := terminalText(t, a, units.SI)
		_, line, found := strings.Cut(text, "\n"+label(c.label))
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

// What is not followed has no numbers: empty in CSV, null in JSON. A limit that
// is there is the answer's, converted: 1 cfm is 1.699010796 m3/h (derived from
// NIST SP 811's foot, from memory).
func TestAirWithoutLimit(t *testing.T) {
	a := sample.Answer(1)
	if got := float64(airLimit(a, units.US)) * 1.699010796; got < 1299.99 || got > 1300.01 {
		t.Errorf("limit of %g m3/h, want 1300", got)
	}
	a.AirLimit, a.Years[0].Air = 0, nil
	if text, err := airLimit(a, units.US).MarshalJSON(); err != nil || string(text) != "null" {
		t.Errorf("no limit is written %s, %v", text, err)
	}
	for _, f := range yearFields {
		followed := strings.HasPrefix(f.name, "air_") || f.name == "hours_over_air_limit"
		if empty := strings.Join(f.cells(&a.Years[0], units.US), "") == ""; empty != followed {
			t.Errorf("%s: cells %q", f.name, f.cells(&a.Years[0], units.US))
		}
	}
}

// A change that never came about has no date.
func TestTriggeredDates(t *testing.T) {
	a := &simulate.Answer{Triggered: []simulate.Triggered{
		{Change: "a", Share: 0.25, Decided: calendar.Date{Year: 2030, Month: 2, Day: 3}}, {Change: "b"},
	}}
	rows := triggeredTable(a)
	if want := []string{"a", "2030-02-03", "25"}; !slices.Equal(rows[1], want) {
		t.Errorf("got %q, want %q", rows[1], want)
	}
	if want := []string{"b", "", "0"}; !slices.Equal(rows[2], want) {
		t.Errorf("got %q, want %q", rows[2], want)
	}
	text, err := jsonTriggered(a.Triggered)[1].MarshalJSON()
	if want := `{"change":"b","decided_median":null,"runs_percent":0}`; err != nil || string(text) != want {
		t.Errorf("got %s, %v, want %s", text, err, want)
	}
}
