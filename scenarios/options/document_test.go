package options_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/options"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// sampleSummary has invented figures that follow from its cost.
func sampleSummary(cost, over, missed float64) options.Summary {
	s := options.Summary{Present: rendertest.TenthAbout(cost), Low: 0.8 * cost, High: 1.3 * cost, OverAsIs: rendertest.TenthAbout(over + 2e5), OverFirst: rendertest.TenthAbout(over),
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
	c := options.Choice{Name: name, AsIs: name == "the plant as it is", Replications: 20}
	c.Service = options.Service{Keeps: missed < 0, Sure: missed >= 0, FirstMissed: missed, MayMiss: missed, SurelyMissed: missed, Years: make([]float64, 20), Worst: 19}
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
		c.Growths = append(c.Growths, sampleSummary(cost*scale, over*scale, years*float64(g)/2))
	}
	return c
}

func sampleOptions(choices ...options.Choice) *options.Answer {
	a := &options.Answer{
		Basis: rendertest.Basis().Replicated(20), Stated: 2027, Real: 0.0244, AirKept: true,
		Choices: choices, Chance: 0.97, Most: 20, Runs: 60 * len(choices),
	}
	a.Start, a.Horizon = calendar.Date{Year: 2027, Month: time.January, Day: 1}, 20
	a.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	a.Scenarios = []answer.Scenario{{Name: "slow", Weight: 0.25}, {Name: "as expected", Weight: 0.5}, {Name: "fast", Weight: 0.25}}
	a.Choices = slices.Clone(choices)
	for i, c := range choices {
		a.Choices[i].Growths = slices.Clone(c.Growths)
		a.Order = append(a.Order, i)
		if !c.Service.Keeps {
			a.Choices[i].Standing = options.Nearest
		}
		if c.AsIs {
			a.Choices[i].Standing = options.Misses
		}
	}
	return options.WithRegrets(a)
}

// priced is a comparison in which missing the target costs 0.4 USD/kg dry, and in
// which some years are missed by waiting alone.
func priced(choices ...options.Choice) *options.Answer {
	a := sampleOptions(choices...)
	a.Missing = 0.4
	for i := range a.Choices {
		c := &a.Choices[i]
		for _, s := range []*options.Summary{&c.All, &c.Growths[0], &c.Growths[1], &c.Growths[2]} {
			s.ByPart[money.Missing], s.WaitedAlone = 2e5*s.YearsMissed, s.YearsMissed/4
		}
	}
	return options.WithRegrets(a)
}

// sampleOptionsAnswers are comparisons with an option that keeps the target, with
// none, with a price of missing it, and with more than a screen has room for.
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
		more := sampleChoice(fmt.Sprintf("another option, number %d of a long list", i+1), 14e6+1e5*float64(i), 6e5+1e5*float64(i), 9)
		more.Replications = 4
		many = append(many, more)
	}
	return map[string]*options.Answer{
		"options":        sampleOptions(first, trigger, asIs),
		"options_none":   settled,
		"options_priced": priced(first, trigger, asIs),
		"options_many":   sampleOptions(many...),
	}
}

// The comparison reads as reviewed in both systems of units, begins with its
// headline, and fits a screen even with twelve choices.
func TestDocumentReads(t *testing.T) {
	for name, a := range sampleOptionsAnswers() {
		rendertest.Reads(t, name, a.Document())
		text := strings.ReplaceAll(rendertest.Text(t, a.Document(), units.US), "\n  ", " ")
		if headline := a.Headline().Plain(units.US); !strings.HasPrefix(text, headline+"\n") {
			t.Errorf("%s begins with %.200q", name, text)
		}
	}
}

// Of the best of the catalogue it is told how well its cost is known, since `expand` tells it,
// too, of other runs; where the file has none, nothing.
func TestCostOfTheFoundIsKnownToSoMuch(t *testing.T) {
	found, asIs := sampleChoice("best of the catalogue", 13.7e6, 0, -1), sampleChoice("the plant as it is", 12.3e6, -1.4e6, 7)
	found.Found, found.Words, found.Told, found.ToldRuns = true, doc.Words("“two vessels” in 2032"), 13.52e6, 24
	for want, a := range map[bool]*options.Answer{true: sampleOptions(found, asIs), false: sampleOptionsAnswers()["options"]} {
		text := strings.ReplaceAll(strings.Join(strings.Fields(rendertest.Text(t, a.Document(), units.US)), " "), doc.NoBreak, " ")
		const words = "“two vessels” in 2032. What it costs is told there as 13.5 million USD, the mean of 24 runs of this plan alone. By these runs, of all choices, it is 12.3 to 15.1 million USD (95 % interval)."
		if strings.Contains(text, words) != want || strings.Contains(text, "`expand`") != want {
			t.Errorf("%v: %s", want, text)
		}
	}
}

// The files, the columns of tables and the members of JSON are part of the
// output format.
func TestDocumentLeaves(t *testing.T) {
	rendertest.Leaves(t, "options", sampleOptionsAnswers()["options"].Document())
}

// JSON holds the values in the units that its names say: a short ton is
// 907.18474 kg (NIST SP 811, from memory), a year 365.25 days.
func TestDocumentValues(t *testing.T) {
	a := sampleOptionsAnswers()["options"]
	var got struct {
		Headline string
		Chance   float64 `json:"chance_first_is_cheapest_of_its_kind_percent"`
		Choices  []struct {
			Choice   string
			Annual   float64          `json:"equivalent_annual_cost_usd_per_year"`
			PerDry   float64          `json:"cost_per_dry_solids_usd_per_short_ton"`
			Diverted float64          `json:"diverted_dry_short_ton"`
			Missing  []float64        `json:"runs_missing_by_year_percent"`
			From     *string          `json:"misses_target_from"`
			Growths  []map[string]any `json:"growth_scenarios"`
		}
	}
	if err := json.Unmarshal(rendertest.JSON(t, a.Document(), units.US), &got); err != nil {
		t.Fatal(err)
	}
	c, want := got.Choices[2], a.Choices[2]
	near := func(a, b float64) bool { return a-b <= 1e-5*max(a, b) && b-a <= 1e-5*max(a, b) }
	if got.Headline != a.Headline().Plain(units.US) || got.Chance != 97 || c.Choice != want.Name || c.From == nil || *c.From != "2034" || got.Choices[0].From != nil {
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

// What was decided reads the same wherever it stands: what comes first, who keeps
// the target, from when another misses it, how sure that is, and what it costs over
// the first, on the screen, in JSON, in tables and in pictures.
func TestDecisionsAreTheSameEverywhere(t *testing.T) {
	d := sampleOptionsAnswers()["options"].Document()
	files, err := render.Files(d, units.US)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range files {
		all[f.Name] = string(f.Data)
	}
	for name, want := range map[string][]string{
		"options.txt": {"Choose “two vessels in 2032 and two in 2039”: it keeps", "1 two vessels in 2032 …  13,700            -", "never ?", "-1,400 ± 140", "misses misses misses", "2034", "97 %"},
		"options.json": {`"headline":"Choose “two vessels in 2032 and two in 2039”`, `"rank":1,"choice":"two vessels in 2032 and two in 2039","as_it_is":false,"standing":"keeps the target","keeps_target":true,"keeps_target_sure":false,"misses_target_from":null`,
			`"regret_is":"stated","regret_mean_usd":315000,"regret_worst_usd":1260000`, `"regret_is":"it misses the target","regret_mean_usd":null,"regret_worst_usd":null`, `"regret_is":"it misses the target","regret_usd":null`,
			`"missing_price_usd_per_short_ton":null`, `"regret_over":"the cheapest of the choices that keep the target"`,
			`"choice":"the plant as it is","as_it_is":true,"standing":"misses it","keeps_target":false,"keeps_target_sure":true,"misses_target_from":"2034"`, `"over_first_usd":-1400000`, `"chance_first_is_cheapest_of_its_kind_percent":97`},
		"options.csv":        {"1,two vessels in 2032 and two in 2039,keeps_target,,true", "3,the plant as it is,standing,,misses it", "3,the plant as it is,misses_target_from,,2034", ",-1400000"},
		"options-growth.csv": {"3,the plant as it is,fast,keeps_target,,false"},
		"options-cost.svg":   {"may keep the target", "misses the target from 2034"},

		"options-difference.svg": {"may keep the target", "misses the target from 2034"},
	} {
		for _, text := range want {
			if !strings.Contains(all[name], text) {
				t.Errorf("%s lacks %q", name, text)
			}
		}
	}
}

// The pictures say in words what they show, and how many choices there was no room
// for.
func TestDocumentDraws(t *testing.T) {
	var many []options.Choice
	for i := range 40 {
		many = append(many, sampleChoice(fmt.Sprintf("choice %d", i), 1e6*float64(i+1), 1e6*float64(i), -1))
	}
	rendertest.Draws(t, sampleOptions(many...).Document(), units.US, []string{"choice 13", "the first 14 of 40 choices"}, []string{"choice 14"})
	rendertest.Draws(t, sampleOptionsAnswers()["options"].Document(), units.US,
		[]string{"million USD of 2027", "20 replications of each, seed 1", "hauling away and tipping", "as expected (50 %)", "the same chance events for all", "invented data"}, nil)
}
