package report

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/options"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// tenthAbout is an interval of a tenth about a value.
func tenthAbout(v float64) stats.Interval {
	half := max(v, -v) / 10
	return stats.Interval{Estimate: v, Low: v - half, High: v + half, Level: 0.95}
}

// sampleSummary has invented figures that follow from its cost.
func sampleSummary(cost, over, missed float64) options.Summary {
	s := options.Summary{Present: tenthAbout(cost), Low: 0.8 * cost, High: 1.3 * cost, OverAsIs: tenthAbout(over + 2e5), OverFirst: tenthAbout(over),
		Annual: cost / 16, PerDry: cost / 3.6e6, Diverted: 2e4 * missed, Share: 0.005 * missed, YearsMissed: missed, HoursOver: 40 * missed, Keeps: missed == 0}
	for i := range s.ByPart {
		s.ByPart[i] = cost / 10
	}
	s.ByPart[money.Sales] = -cost / 10
	s.ByPart[money.Salvage] = 0
	return s
}

// sampleChoice is one that misses the target from place `missed` of the years on,
// or never if that is −1.
func sampleChoice(name string, cost, over float64, missed int) options.Choice {
	years := 0.0
	c := options.Choice{Name: name, AsIs: name == "the plant as it is", Regret: max(over, 0) / 2, WorstRegret: max(over, 0)}
	c.Service = options.Service{Keeps: missed < 0, Sure: missed >= 0, FirstMissed: missed, Years: make([]float64, 20), Worst: 19}
	for y := range 20 {
		if missed >= 0 && y >= missed {
			c.Service.Years[y] = 0.4
			years += 0.4
		}
	}
	c.Service.YearsMissed = years
	c.Service.Share = stats.Interval{Estimate: c.Service.Years[19], Low: 0, High: 0.16, Level: 0.95}
	c.All = sampleSummary(cost, over, years)
	for g := range 3 {
		scale := 0.9 + 0.1*float64(g)
		s := sampleSummary(cost*scale, over*scale, years*float64(g)/2)
		s.Regret = max(over*scale, 0)
		c.Growths = append(c.Growths, s)
	}
	return c
}

func sampleOptions(choices ...options.Choice) *options.Answer {
	a := &options.Answer{
		Facility: "Fennick Valley compost plant", Source: "built-in example fennick-valley", Version: "0", Invented: true, Seed: 1,
		Start:  calendar.Date{Year: 2027, Month: time.January, Day: 1},
		Target: facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}, Stated: 2027, Real: 0.0244, AirKept: true,
		Growths: []options.Growth{{Name: "slow", Weight: 0.25}, {Name: "as expected", Weight: 0.5}, {Name: "fast", Weight: 0.25}},
		Choices: choices, Chance: 0.97, Replications: 20, Most: 20, Runs: 60 * len(choices),
	}
	for y := range 20 {
		a.Years = append(a.Years, fmt.Sprint(2027+y))
	}
	for i, c := range choices {
		a.Order = append(a.Order, i)
		if !c.Service.Keeps {
			a.Choices[i].Standing = options.Nearest
		}
		if c.AsIs {
			a.Choices[i].Standing = options.Misses
		}
	}
	return a
}

// sampleOptionsAnswers are comparisons with an option that keeps the target, with
// none, and with more than a screen has room for.
func sampleOptionsAnswers() map[string]*options.Answer {
	asIs := sampleChoice("the plant as it is", 12.3e6, -1.4e6, 7)
	trigger := sampleChoice("vessels when the holding has been full", 14.1e6, 4.1e5, -1)
	trigger.Steps = []options.Step{
		{Name: "first pair", Triggered: true, Taken: 0.85, InService: calendar.Date{Year: 2036, Month: time.April, Day: 1}},
		{Name: "second pair", Triggered: true},
	}
	first := sampleChoice("two vessels in 2032 and two in 2039", 13.7e6, 0, -1)
	first.Steps = []options.Step{{Name: "first pair", Taken: 1, InService: calendar.Date{Year: 2032, Month: time.July, Day: 1}}}
	late := sampleChoice("one vessel", 12.6e6, 0, 11)
	cheap := sampleChoice("the plant as it is", 12.3e6, -3e5, 7)
	settled := sampleOptions(late, cheap)
	settled.Settled, settled.Invented, settled.AirKept = true, false, false
	many := []options.Choice{first, trigger, asIs}
	for i := range 9 {
		many = append(many, sampleChoice(fmt.Sprintf("another option, number %d of a long list", i+1), 14e6+1e5*float64(i), 6e5+1e5*float64(i), 9))
	}
	return map[string]*options.Answer{
		"options":      sampleOptions(first, trigger, asIs),
		"options_none": settled,
		"options_many": sampleOptions(many...),
	}
}

// The comparison reads as reviewed in both systems of units, and fits a screen of
// 40 lines by 100 columns even with twelve choices.
func TestOptionsGolden(t *testing.T) {
	for name, a := range sampleOptionsAnswers() {
		for _, sys := range systems {
			var b bytes.Buffer
			if err := OptionsTerminal(&b, a, sys); err != nil {
				t.Fatal(err)
			}
			golden(t, name+"_"+sys.String()+".txt", b.Bytes())
			lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
			if len(lines) > screenLines {
				t.Errorf("%s: %d lines", name, len(lines))
			}
			for _, line := range lines {
				if n := utf8.RuneCountInString(line); n > screenColumns {
					t.Errorf("%s: %d columns: %q", name, n, line)
				}
			}
		}
	}
}

// The first line is the headline, whatever follows.
func TestOptionsBeginWithTheAnswer(t *testing.T) {
	for name, a := range sampleOptionsAnswers() {
		var b bytes.Buffer
		if err := OptionsTerminal(&b, a, units.US); err != nil {
			t.Fatal(err)
		}
		text := strings.ReplaceAll(b.String(), "\n  ", " ")
		if !strings.HasPrefix(text, a.Headline()+"\n") {
			t.Errorf("%s begins with %.200q", name, text)
		}
	}
}

// The files, the columns of tables and the fields of JSON are part of the output
// format.
func TestOptionsFilesGolden(t *testing.T) {
	a := sampleOptionsAnswers()["options"]
	for _, sys := range systems {
		golden(t, "options_files_"+sys.String()+".txt", fileNames(t, func() ([]File, error) { return OptionsFiles(a, sys) }))
	}
}

// Every number of a summary is rendered once, but for the level of its intervals
// and the parts of the cost, which have a field each.
func TestOptionsFieldsAreComplete(t *testing.T) {
	const levels = 3
	checkComplete(t, summaryFields[:len(summaryFields)-len(money.Parts())], levels)
	var s options.Summary
	for i := range s.ByPart {
		s.ByPart[i] = float64(i + 1)
	}
	for i, f := range partFields(func(s *options.Summary) *money.Amounts { return &s.ByPart }) {
		if f.value(&s) != float64(i+1) {
			t.Errorf("%s shows %g", f.name, f.value(&s))
		}
	}
}

// JSON holds the values in the units that its names say: a short ton is
// 907.18474 kg (NIST SP 811, from memory), a year 365.25 days.
func TestOptionsJSONValues(t *testing.T) {
	a := sampleOptionsAnswers()["options"]
	var b bytes.Buffer
	if err := OptionsJSON(&b, a, units.US); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Headline string
		Chance   float64 `json:"chance_first_is_cheapest_of_its_kind_percent"`
		Choices  []struct {
			Name     string
			Annual   float64          `json:"equivalent_annual_cost_usd_per_year"`
			PerDry   float64          `json:"cost_per_dry_solids_usd_per_short_ton"`
			Diverted float64          `json:"diverted_dry_short_ton"`
			Missing  []float64        `json:"runs_missing_by_year_percent"`
			From     *string          `json:"misses_target_from"`
			Growths  []map[string]any `json:"growth_scenarios"`
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	c, want := got.Choices[2], a.Choices[2]
	near := func(a, b float64) bool { return a-b <= 1e-5*max(a, b) && b-a <= 1e-5*max(a, b) }
	if got.Headline != a.Headline() || got.Chance != 97 || c.Name != want.Name || c.From == nil || *c.From != "2034" || got.Choices[0].From != nil {
		t.Errorf("head: %+v", got)
	}
	if !near(c.Annual, want.All.Annual) || !near(c.PerDry, want.All.PerDry*907.18474) || !near(c.Diverted, want.All.Diverted/907.18474) {
		t.Errorf("%g USD/year, %g USD/short ton, %g short tons; want %g, %g, %g", c.Annual, c.PerDry, c.Diverted,
			want.All.Annual, want.All.PerDry*907.18474, want.All.Diverted/907.18474)
	}
	if len(c.Missing) != 20 || c.Missing[6] != 0 || c.Missing[7] != 40 || len(c.Growths) != 3 || c.Growths[2]["growth"] != "fast" {
		t.Errorf("years %v, scenarios %v", c.Missing, c.Growths)
	}
}
