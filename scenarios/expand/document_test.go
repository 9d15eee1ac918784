package expand_test

import (
	"encoding/json"
	"regexp"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/render"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// tag is markup of a picture.
var tag = regexp.MustCompile(`<[^>]*>`)

// sampleStep is a step in service from a year of the horizon that begins in 2027,
// ordered 400 days before.
func sampleStep(name string, count, year int) expand.Step {
	s := expand.Step{Name: name, Count: count, Year: year, InService: calendar.Date{Year: 2027 + year, Month: 1, Day: 1}}
	s.OrderBy = s.InService.AddDays(-400)
	s.Late, s.Later = year < 2, year >= 18
	return s
}

// samplePlan has invented figures about a present worth, and runs that miss one
// year.
func samplePlan(present, over float64, missed int, steps ...expand.Step) expand.Plan {
	p := expand.Plan{
		Steps: steps, Present: rendertest.TenthAbout(present), Low: 0.9 * present, High: 1.2 * present, OverFirst: rendertest.TenthAbout(over),
		Missed: make([]int, 20), Replications: 63, Worst: 0, Verdict: stats.Below,
	}
	for _, part := range money.Parts() {
		p.ByPart[part] = present / 10
	}
	p.ByPart[money.Salvage], p.ByPart[money.Sales] = -present/50, -present/20
	for y := range p.Missed {
		p.Shares = append(p.Shares, rendertest.TenthAbout(0.001*float64(y)))
	}
	p.Worst = 18
	if missed > 0 {
		p.Worst, p.Missed[9], p.Verdict = 9, missed, stats.Undecided
		p.Shares[9] = rendertest.TenthAbout(0.048)
	}
	p.Share = p.Shares[p.Worst]
	return p
}

// sample is an answer as if made by a search.
func sample() *expand.Answer {
	a := &expand.Answer{
		Basis:  answer.Basis{Facility: "Sample plant", Source: "sample.yaml", Version: "test", Seed: 1, Invented: true, Horizon: 20, Level: answer.Deciles},
		Growth: answer.Scenario{Name: "all by weight", Weight: 1}, Stated: 2027, Real: 0.0244,
		AsIs: 6, AsIsMissed: 9, AsIsShort: capability.Lack{Waits: plant.NoVessel}, Through: 19, Chance: 0.34, OfThese: 0.97, Settled: true, Indifference: 14500,
		Configurations: 168, Simulated: 31, YearsSimulated: 9040, Most: 63,
		Plans: []expand.Plan{
			samplePlan(2.9e6, 0, 0, sampleStep("second pad", 1, 7), sampleStep("two vessels", 1, 10), sampleStep("two vessels", 1, 15)),
			samplePlan(3.3e6, 0.4e6, 2, sampleStep("two vessels", 2, 1), sampleStep("drier cake", 1, 12)),
		},
	}
	a.Doubt = &expand.Doubt{
		Range:   stats.Interval{Estimate: 2.9e6, Low: 2.84e6, High: 2.98e6, Level: 0.9},
		Caution: 31e3, Likeliest: []expand.Step{sampleStep("second pad", 1, 8), sampleStep("two vessels", 1, 11)},
		Keeps: 0.985, Stays: 0.35, Rival: &expand.Rival{Steps: []expand.Step{sampleStep("second pad", 1, 7), sampleStep("two vessels", 1, 11)}, Less: 24e3, Keeps: 0.41},
	}
	a.Adaptive = &expand.Adaptive{
		Steps: []expand.Signed{
			{Name: "second pad", Count: 1},
			{Name: "two vessels", Count: 1, Production: 560, From: calendar.Date{Year: 2030, Month: 5, Day: 1}, To: calendar.Date{Year: 2039, Month: 5, Day: 1}},
			{Name: "two vessels", Count: 1, Production: 700, From: calendar.Date{Year: 2036, Month: 2, Day: 1}, To: calendar.Date{Year: 2047, Month: 1, Day: 1}, Never: 0.4},
		},
		Present: rendertest.TenthAbout(2.85e6), OverDated: rendertest.TenthAbout(-50e3), Missed: 1, Replications: 63,
	}
	a.Start = calendar.Date{Year: 2027, Month: 1, Day: 1}
	a.Target = facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05}
	a.Scenarios = []answer.Scenario{{Name: "slow", Weight: 0.25}, {Name: "as expected", Weight: 0.5}, {Name: "fast", Weight: 0.25}}
	return a
}

// The text reads as reviewed, in the units asked for where they matter: production.
func TestDocumentReads(t *testing.T) {
	text := rendertest.Text(t, sample().Document(), units.US)
	rendertest.Golden(t, "expand.txt", []byte(text))
	if si := rendertest.Text(t, sample().Document(), units.SI); !strings.Contains(si, "0.56 t/day") || !strings.Contains(text, "0.617 short ton/day") {
		t.Errorf("the marks of production are not in the units asked for:\n%s", si)
	}
}

// The first sentence answers, whatever the answer is, and every answer can be
// rendered.
func TestHeadlines(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func(*expand.Answer)
		want  string
	}{
		{"usual", func(*expand.Answer) {},
			"The cheapest plan that keeps the service target in every year through 2046 is “second pad” in 2034, and “two vessels” in 2037 and 2042: 2.9 million USD of 2027 in present worth with the running of the plant (2.61 to 3.48 million USD in 8 of 10 runs), 232,000 USD of it for building. The next best, “two vessels” in 2028 (2 of them), and “drier cake” in 2039, costs 400,000 USD more (360,000 to 440,000 USD, 95 % interval)."},
		{"no other plan, no spread", func(a *expand.Answer) {
			a.Plans = a.Plans[:1]
			a.Plans[0].Low, a.Plans[0].High = a.Plans[0].Present.Estimate, a.Plans[0].Present.Estimate
		}, "The cheapest plan that keeps the service target in every year through 2046 is “second pad” in 2034, and “two vessels” in 2037 and 2042: 2.9 million USD of 2027 in present worth with the running of the plant, 232,000 USD of it for building."},
		{"nothing needed", func(a *expand.Answer) { a.AsIs, a.Plans = 19, []expand.Plan{samplePlan(2e6, 0, 0)} },
			"Nothing need be built: the plant as it is keeps the service target in every year through 2046."},
		{"nothing needed, but something pays", func(a *expand.Answer) {
			a.AsIs, a.Plans = 19, []expand.Plan{samplePlan(0.9e6, 0, 0, sampleStep("drier cake", 1, 3)), samplePlan(1e6, 0.1e6, 0)}
		}, "The plant as it is keeps the service target in every year through 2046, but “drier cake” in 2030 pays itself back: 900,000 USD of 2027 in present worth with the running of the plant (810,000 to 1,080,000 USD in 8 of 10 runs), 72,000 USD of it for building. The next best, building nothing, costs 100,000 USD more (90,000 to 110,000 USD, 95 % interval)."},
		{"none keeps", func(a *expand.Answer) { a.Through, a.Short = 16, capability.Lack{Waits: plant.NoCuringSpace} },
			"No plan of the catalogue keeps the service target through 2046. What comes furthest is “second pad” in 2034, and “two vessels” in 2037 and 2042, which keeps it through 2043: 2.9 million USD of 2027 in present worth with the running of the plant (2.61 to 3.48 million USD in 8 of 10 runs), 232,000 USD of it for building. What is short then is space on the curing pad."},
		{"no step helps", func(a *expand.Answer) {
			a.Through, a.Short, a.Plans = 6, capability.Lack{Waits: plant.NoVessel}, []expand.Plan{samplePlan(2e6, 0, 0)}
		}, "No plan of the catalogue keeps the service target through 2046. The plant as it is keeps it through 2033, and no step makes it last longer. What is short then is vessels."},
		{"not shown to keep the target", func(a *expand.Answer) {
			p := &a.Plans[0]
			p.Verdict, p.Worst, p.Share, a.Plans = stats.Undecided, 9, rendertest.TenthAbout(0.048), a.Plans[:1]
		}, strings.TrimSuffix(alone(), ".") + ". That it keeps the target is open: 4.8 % of runs (4.3 to 5.3 %) miss it in 2036."},
		{"judged by whole runs", func(a *expand.Answer) {
			p := &a.Plans[0]
			p.Verdict, p.Worst, p.Missed[9], a.Plans = stats.Undecided, 9, 2, a.Plans[:1]
			p.Shares, a.ByRuns = nil, "production has pulses on dates"
		}, strings.TrimSuffix(alone(), ".") + ". That it keeps the target is open: 2 of 63 runs miss it in 2036."},
		{"a step near the end", func(a *expand.Answer) {
			a.Plans = a.Plans[:1]
			a.Plans[0].Steps = append(a.Plans[0].Steps, sampleStep("drier cake", 1, 19))
		}, strings.Replace(alone(), "2037 and 2042:", "2037 and 2042 (and, no decision yet, “drier cake” in 2046):", 1)},
		{"not even the first year", func(a *expand.Answer) {
			a.Through, a.AsIs, a.Short, a.Plans = -1, -1, capability.Lack{Waits: plant.Mixing}, []expand.Plan{samplePlan(2e6, 0, 0)}
		}, "No plan of the catalogue keeps the service target through 2046. It is missed in the first year, whatever is built at once. What is short then is the mixer."},
	} {
		t.Run(c.name, func(t *testing.T) {
			a := sample()
			c.alter(a)
			if got := a.Headline().Plain(units.US); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
			rendertest.Fits(t, c.name, rendertest.Text(t, a.Document(), units.US))
			if _, err := render.Files(a.Document(), units.US); err != nil {
				t.Error(err)
			}
		})
	}
}

// alone is the headline of the first plan without another.
func alone() string {
	a := sample()
	a.Plans = a.Plans[:1]
	return a.Headline().Plain(units.US)
}

// However many plans and steps there are and whatever they are called, the text
// fits the screen, what is left out of it is said, and the table has the plans of
// which the steps are listed.
func TestFitsTheScreen(t *testing.T) {
	a := sample()
	long := strings.Repeat("a step with a long name ", 4)
	for range 8 {
		var steps []expand.Step
		for y := range 6 {
			steps = append(steps, sampleStep(long, 1, 2+3*y))
		}
		a.Plans = append(a.Plans, samplePlan(123456789, 9999999, 1, steps...))
	}
	a.Facility, a.Growth.Name, a.Adaptive, a.Doubt = long, long, nil, nil
	text := rendertest.Text(t, a.Document(), units.US)
	rendertest.Fits(t, "many plans", text)
	if !strings.Contains(text, "; 7 more in expand.csv (--out)") || strings.Count(text, "\n   3  ") != 2 || strings.Contains(text, "\n   4  ") {
		t.Errorf("it is not said that 7 of 10 plans are left out, or others are:\n%s", text)
	}
}

// The columns of the tables, the members of JSON and the names of the files are
// part of the output format, and each table has a row for all that there is.
func TestDocumentLeaves(t *testing.T) {
	rendertest.Leaves(t, "expand", sample().Document())
	files, err := render.CSV(sample().Document(), units.US)
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string]int{}
	for _, f := range files {
		rows[f.Name] = strings.Count(string(f.Data), "\n") - 1
	}
	if rows["expand.csv"] != 2*28 || rows["expand-steps.csv"] != 5 || rows["expand-years.csv"] != 40 {
		t.Errorf("rows: %v", rows)
	}
}

// What JSON says of a plan is what the plan says.
func TestDocumentValues(t *testing.T) {
	var got struct {
		Keeps   bool   `json:"keeps_target"`
		Through string `json:"kept_through"`
		Short   any    `json:"short_then"`
		Plans   []struct {
			Steps []struct {
				Step  string
				Count int
				In    string `json:"in_service"`
				Order string `json:"order_by"`
				Late  bool   `json:"order_is_late"`
			}
			Present float64 `json:"present_worth_usd"`
			Over    float64 `json:"over_first_high95_usd"`
			Kept    string  `json:"target_kept"`
			Worst   string  `json:"worst_year"`
			Missing []int   `json:"runs_missing_by_year"`
		}
	}
	if err := json.Unmarshal(rendertest.JSON(t, sample().Document(), units.US), &got); err != nil {
		t.Fatal(err)
	}
	second := got.Plans[1]
	step := second.Steps[0]
	if !got.Keeps || got.Through != "2046" || got.Short != nil || len(got.Plans) != 2 || got.Plans[0].Kept != "yes" {
		t.Errorf("%+v", got)
	}
	if second.Present != 3.3e6 || second.Over != 440000 || second.Kept != "open" || second.Worst != "2036" || second.Missing[9] != 2 {
		t.Errorf("%+v", second)
	}
	if step.Step != "two vessels" || step.Count != 2 || step.In != "2028-01-01" || step.Order != "2026-11-27" || !step.Late {
		t.Errorf("%+v", step)
	}
}

// What was decided reads the same wherever it stands: which plan is first, which
// is kept by the test and which is open, and which order is late, on the screen, in
// JSON, in tables and in pictures.
func TestDecisionsAreTheSameEverywhere(t *testing.T) {
	files, err := render.Files(sample().Document(), units.US)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, f := range files {
		all[f.Name] = strings.ReplaceAll(string(f.Data), "\n  ", " ")
		if strings.HasSuffix(f.Name, ".svg") { // its words, which may stand on several lines
			all[f.Name] = strings.Join(strings.Fields(tag.ReplaceAllString(string(f.Data), " ")), " ")
		}
	}
	for name, want := range map[string][]string{
		"expand.txt": {"“second pad” in 2034, and “two vessels” in 2037 and", "1.8 % of runs (1.6 to 2.0 %) of the first plan miss it, and every year is kept", "1.8 % of runs (1.6 to 2.0 %)    kept", "4.8 % of runs (4.3 to 5.3 %)    open",
			"2028-01 (2026-11, before the start!)", "through 2033 for sure (2034 to 2035, too near", "plan does: 34 %", "these: 97 %"},
		"expand.json": {`"target_kept":"yes"`, `"target_kept":"open"`, `"order_by":"2026-11-27","order_is_late":true`, `"kept_through":"2033","missed_from":"2036"`,
			`"chance_first_is_cheapest_percent":97,`, `"chance_first_is_cheapest_that_keeps_target_percent":34,`},
		"expand.csv":       {"1,in_words,,\"'second pad' in 2034, and 'two vessels' in 2037 and 2042\"", "1,replications,,63", "2,target_kept,,open", "2,worst_year,,2036"},
		"expand-steps.csv": {"2,two vessels,2,2028-01-01,2026-11-27,true,false\n", "2,drier cake,1,2039-01-01,2037-11-27,false,false\n"},
		"expand-years.csv": {"2,2036,63,2,4.8,"},
		"expand-when.svg":  {"2.90 million USD", "+400,000 USD (360,000 to 440,000 USD)", "2 × two vessels, 2028", "all growths by weight, seed 1"},
		"expand-cost.svg":  {"2.90 million USD", "+400,000 USD (360,000 to 440,000 USD)", "million USD of 2027"},
	} {
		for _, text := range want {
			if !strings.Contains(all[name], text) {
				t.Errorf("%s lacks %q", name, text)
			}
		}
	}
}
