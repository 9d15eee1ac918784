package facilityfile

import (
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"go.yaml.in/yaml/v4"

	"loamcast/facility/plant"
	"loamcast/scenarios/money"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

func readPlanning(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// parsePlanning reads the planning file after edits: old, new, old, new …
func parsePlanning(t testing.TB, edits ...string) *File {
	t.Helper()
	text := readPlanning(t)
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q is there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	f, err := Parse("planning.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every quantity of the planning sections arrives in the unit of its type. The
// conversions are arithmetic on the exact units, as in read_test.go; a US gallon
// is 0.003785411784 m3, and the file's year has 365.25 days.
func TestPlanningArrives(t *testing.T) {
	f := parsePlanning(t)
	p := &f.Planning
	const yd3, ton, gallon = 0.764554857984, 907.18474, 0.003785411784
	e := p.Economy
	roof, second, thicker := p.Committed[0], p.Options[0].Steps[1], p.Options[1].Steps[0]
	vessel, pad := p.Catalogue[0], p.Catalogue[1]
	for _, c := range []struct {
		key       string
		got, want float64
	}{
		// 1,900 people on 1 January 2025 and 2,150 five years later: 911 of 1,826 days
		// to 1 July 2027, and half a year to the middle of the first.
		{"solids from the population", f.Model.Feed.Base, 0.05 * (1900 + 250*(911+365.25/2)/1826)},
		{"growth of the population", f.Model.Feed.Growth.Factor(20), 2600 / (1900 + 250*(911+365.25/2)/1826)},
		{"target.diverted_at_most", p.Target.DivertedLimit, 0.02},
		{"target.cake_waits_at_most", p.Target.DelayLimit, 4},
		{"target.runs", p.Target.MissShare, 0.1},
		{"weight", p.Growths[1].Weight, 0.5},
		{"linear", p.Growths[0].Growth.Factor(2.5), 1.01},
		{"steps", p.Growths[1].Growth.Factor(5), 1.2},
		{"logistic", p.Growths[2].Growth.Factor(10), plant.Logistic{Ceiling: 1.8, Rate: 0.06}.Factor(10)},
		{"rank", p.Correlations[0].Rank, -0.4},
		{"prices_of", float64(e.Rates.Stated), 2026},
		{"start of the plan", e.Rates.Start, 2027 + 181.0/365},
		{"discount", e.Rates.Discount, 0.05},
		{"inflation", e.Rates.Escalation, 0.025},
		{"labour", e.Prices.Labour.Amount, 38},
		{"power", e.Prices.Power.Amount, 0.12},
		{"fuel", e.Prices.Fuel.Amount, 4 / gallon},
		{"chips.price", e.Prices.Chips.Amount, 11 / yd3},
		{"tipping", e.Prices.Tipping.Amount, 75 / ton},
		{"sampling", e.Prices.Sampling.Amount, 900},
		{"product", e.ProductPrice[7], 6 / yd3},
		{"loader_fuel", e.LoaderFuel, 4 * gallon},
		{"truck_fuel", e.TruckFuel, 3 * gallon},
		{"overhead", e.Overhead, 40000},
		{"escalation.labour", e.Prices.Labour.Escalation, 0.031},
		{"escalation.product", e.Prices.Product.Escalation, 0.015},
		{"changes.cost", roof.Asset.Cost.Amount, 30000},
		{"escalation.capital", roof.Asset.Cost.Escalation, 0.037},
		{"changes.life", roof.Asset.Life, 25},
		{"changes.salvage", roof.Asset.SalvageShare, 0.05},
		{"changes.upkeep", roof.Asset.Maintenance, 0.01},
		{"changes.running", roof.Asset.Running.Amount, 500},
		{"running costs rise with prices", roof.Asset.Running.Escalation, 0.025},
		{"changes.pad", roof.Pad, 20 * yd3},
		{"options.cost", second.Asset.Cost.Amount, 190000},
		{"options.life by default", second.Asset.Life, usualLife},
		{"options.running", thicker.Asset.Running.Amount, -2000},
		{"options.cake_solids", thicker.CakeSolids, 0.02},
		{"catalogue.most", float64(vessel.Most), 3},
		{"catalogue.most by default", float64(pad.Most), 1},
	} {
		if math.Abs(c.got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("%s: %.12g, want %.12g", c.key, c.got, c.want)
		}
	}
	if second.Trigger != (plant.Trigger{Held: 0.7, For: 20 * sim.Day}) || p.Options[0].Steps[0].Date != (calendar.Date{Year: 2028, Month: 1, Day: 1}) {
		t.Errorf("steps %+v", p.Options[0].Steps)
	}
	if p.VesselLead != (calendar.Span{Months: 10}) || vessel.Lead != p.VesselLead || pad.Lead != (calendar.Span{Months: 6}) {
		t.Errorf("lead times %v, %v, %v", p.VesselLead, vessel.Lead, pad.Lead)
	}
	if !p.Priced || e.Rates.Real || e.Rates.Timing != money.EndOfYear || p.RoomFor != 6 {
		t.Errorf("%v, %+v, room for %d", p.Priced, e.Rates, p.RoomFor)
	}
	for _, step := range slices.Concat(p.Committed, p.Options[0].Steps, p.Catalogue) {
		if err := step.Asset.Validate(); err != nil || step.Asset.Name != step.Name {
			t.Errorf("%v: %+v", err, step.Asset)
		}
	}
	if err := e.Rates.Validate(); err != nil {
		t.Error(err)
	}
	if len(f.Warnings) > 0 {
		t.Error(f.Warnings)
	}
}

// What a file leaves out of planning takes the defaults that the starter file
// names.
func TestPlanningDefaults(t *testing.T) {
	p := parse(t).Planning
	want := Planning{
		Target:     Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.05},
		Growths:    []GrowthScenario{{Name: "as expected", Weight: 1, Growth: plant.Compound{Rate: 0.022}}},
		VesselLead: calendar.Span{Months: 12},
		RoomFor:    3,
		Committed:  p.Committed,
	}
	if !reflect.DeepEqual(p, want) {
		t.Errorf("%+v, want %+v", p, want)
	}
	if len(p.Committed) != 1 || p.Committed[0].Vessels != 1 || p.Committed[0].Asset.Cost.Amount != 0 {
		t.Errorf("committed %+v", p.Committed)
	}
	if got := parse(t, "  room_for: 3\n", "").Planning.RoomFor; got != 2 {
		t.Errorf("room for %d where the file does not say, want those of its changes", got)
	}
	m := parsePlanning(t, "  prices_of: 2026\n", "", "  paid: end of year\n", "",
		"  escalation:\n    labour: 3.1 %/year\n    power: 3.2 %/year\n    fuel: 3.3 %/year\n    chips: 3.4 %/year\n    tipping: 3.5 %/year\n    sampling: 3.6 %/year\n    product: 1.5 %/year\n    capital: 3.7 %/year\n", "").Planning
	if m.Economy.Rates.Stated != 2027 || m.Economy.Rates.Timing != money.MidYear || m.Economy.Prices.Power.Escalation != 0.025 || m.Committed[0].Asset.Cost.Escalation != 0.025 {
		t.Errorf("%+v", m.Economy)
	}
	g := parsePlanning(t, "growth_scenarios:\n  - {name: low, weight: 30 %, growth: {linear: 0.5 %/year}}\n  - name: middle\n    weight: 50 %\n    growth:\n      steps:\n        - {date: 2028-07-01, factor: 1.05}\n        - {date: 2031-07-01, factor: 1.2}\n    source: invented list of subdivisions\n  - {name: high, weight: 20 %, growth: {logistic: {ceiling: 1.8, rate: 6 %/year}}}\n", "")
	if s := g.Planning.Growths; len(s) != 1 || s[0].Source != "invented forecast of the county" || !reflect.DeepEqual(s[0].Growth, g.Model.Feed.Growth) {
		t.Errorf("growth scenarios %+v", s)
	}
}

// planningKeys are the keys that planning reads, each with an edit of its value.
// Keys of changes that a run simulates are shown to matter by package simulate.
var planningKeys = []struct{ key, old, new string }{
	{"vessels.lead_time", "lead_time: 10 month", "lead_time: 11 month"},
	{"vessels.room_for", "room_for: 6", "room_for: 7"},
	{"solids.growth.population.by_calendar_year", "2030: 2150", "2030: 2250"},
	{"solids.growth.population.per_person", "per_person: 0.05 kg/day", "per_person: 0.06 kg/day"},
	{"target.diverted_at_most", "diverted_at_most: 2 %", "diverted_at_most: 3 %"},
	{"target.cake_waits_at_most", "cake_waits_at_most: 4 day", "cake_waits_at_most: 5 day"},
	{"target.runs", "runs: 90 %", "runs: 80 %"},
	{"growth_scenarios.name", "name: middle", "name: centre"},
	{"growth_scenarios.weight", "name: low, weight: 30 %", "name: low, weight: 29.99999 %"},
	{"growth_scenarios.growth.linear", "linear: 0.5 %/year", "linear: 0.6 %/year"},
	{"growth_scenarios.growth.steps.date", "date: 2028-07-01, f", "date: 2028-08-01, f"},
	{"growth_scenarios.growth.steps.factor", "factor: 1.2", "factor: 1.3"},
	{"growth_scenarios.growth.logistic.ceiling", "ceiling: 1.8", "ceiling: 1.9"},
	{"growth_scenarios.growth.logistic.rate", "rate: 6 %/year", "rate: 7 %/year"},
	{"growth_scenarios.source", "source: invented list", "source: other list"},
	{"uncertain.input", "input: screen.recovery", "input: screen.attrition"},
	{"uncertain.uniform", "uniform: [-1 %", "uniform: [-2 %"},
	{"uncertain.triangular", "[77 %, 79 %", "[77 %, 78 %"},
	{"uncertain.pert", "[70 %, 78 %", "[70 %, 77 %"},
	{"uncertain.normal.mean", "mean: 0 %/year", "mean: 0.1 %/year"},
	{"uncertain.normal.sd", "sd: 0.4 %/year", "sd: 0.5 %/year"},
	{"uncertain.lognormal.mean", "mean: 8 day", "mean: 9 day"},
	{"uncertain.lognormal.variation", "variation: 40 %", "variation: 50 %"},
	{"uncertain.empirical", "95 USD/short ton", "99 USD/short ton"},
	{"correlations.between", "[solids.growth, solids.cake_solids]", "[screen.recovery, solids.cake_solids]"},
	{"correlations.rank", "rank: 0.5", "rank: 0.3"},
	{"chips.price", "price: 11 USD/yd3", "price: 12 USD/yd3"},
	{"money.prices_of", "prices_of: 2026", "prices_of: 2025"},
	{"money.discount", "discount: 5 %/year", "discount: 6 %/year"},
	{"money.discount_kind", "discount_kind: nominal", "discount_kind: real"},
	{"money.inflation", "inflation: 2.5 %/year", "inflation: 2 %/year"},
	{"money.paid", "paid: end of year", "paid: mid year"},
	{"money.labour", "labour: 38 USD/h", "labour: 39 USD/h"},
	{"money.power", "power: 0.12 USD/kWh", "power: 0.13 USD/kWh"},
	{"money.fuel", "fuel: 4 USD/gal", "fuel: 5 USD/gal"},
	{"money.loader_fuel", "loader_fuel: 4 gal/h", "loader_fuel: 5 gal/h"},
	{"money.truck_fuel", "truck_fuel: 3 gal/h", "truck_fuel: 4 gal/h"},
	{"money.tipping", "tipping: 75 USD/short ton", "tipping: 76 USD/short ton"},
	{"money.missing", "sampling: 900 USD", "sampling: 900 USD\n  missing: 300 USD/short ton"},
	{"money.sampling", "sampling: 900 USD", "sampling: 950 USD"},
	{"money.product", "product: 6 USD/yd3", "product: -3 USD/yd3"},
	{"money.overhead", "overhead: 40,000 USD/year", "overhead: 41,000 USD/year"},
	{"money.escalation.labour", "labour: 3.1 %", "labour: 4 %"},
	{"money.escalation.power", "power: 3.2 %", "power: 4 %"},
	{"money.escalation.fuel", "fuel: 3.3 %", "fuel: 4 %"},
	{"money.escalation.chips", "chips: 3.4 %", "chips: 4 %"},
	{"money.escalation.tipping", "tipping: 3.5 %", "tipping: 4 %"},
	{"money.escalation.missing", "  product: 6 USD/yd3\n  overhead: 40,000 USD/year\n  escalation:\n", "  product: 6 USD/yd3\n  missing: 300 USD/short ton\n  overhead: 40,000 USD/year\n  escalation:\n    missing: 4 %/year\n"},
	{"money.escalation.sampling", "sampling: 3.6 %", "sampling: 4 %"},
	{"money.escalation.product", "product: 1.5 %", "product: 4 %"},
	{"money.escalation.capital", "capital: 3.7 %", "capital: 4 %"},
	{"changes.cost", "cost: 30,000 USD", "cost: 31,000 USD"},
	{"changes.life", "life: 25 year", "life: 26 year"},
	{"changes.salvage", "    salvage: 5 %\n", "    salvage: 6 %\n"},
	{"changes.upkeep", "    upkeep: 1 %/year\n", "    upkeep: 2 %/year\n"},
	{"changes.running", "running: 500 USD/year", "running: 600 USD/year"},
	{"options.name", "name: thicker cake", "name: drier cake"},
	{"options.steps.name", "name: second vessel", "name: next vessel"},
	{"options.steps.date", "date: 2029-01-01, cake", "date: 2029-02-01, cake"},
	{"options.steps.when", "held_above: 70 %", "held_above: 75 %"},
	{"options.steps.when.production", "held_above: 70 %, for: 20 day", "production: 900 kg/day"},
	{"options.steps.lead_time", "lead_time: 14 month", "lead_time: 15 month"},
	{"options.steps.vessels", "        vessels: 1\n        cost: 190,000 USD", "        vessels: 2\n        cost: 190,000 USD"},
	{"options.steps.cake_solids", "cake_solids: 2 %", "cake_solids: 2.5 %"},
	{"options.steps.cost", "cost: 190,000 USD", "cost: 200,000 USD"},
	{"options.steps.life", "life: 15 year", "life: 16 year"},
	{"options.steps.salvage", "salvage: 10 %", "salvage: 11 %"},
	{"options.steps.upkeep", "upkeep: 3 %/year", "upkeep: 4 %/year"},
	{"options.steps.running", `"-2,000 USD/year"`, `"2,000 USD/year"`},
	{"catalogue.name", "name: more pad", "name: larger pad"},
	{"catalogue.vessels", "{name: one vessel, vessels: 1", "{name: one vessel, vessels: 2"},
	{"catalogue.pad", "pad: 40 yd3", "pad: 50 yd3"},
	{"catalogue.lead_time", "lead_time: 6 month", "lead_time: 7 month"},
	{"catalogue.cost", `"25,000 USD"`, `"26,000 USD"`},
	{"catalogue.life", `"185,000 USD", life: 20 year`, `"185,000 USD", life: 21 year`},
	{"catalogue.salvage", "life: 20 year, salvage: 5 %", "life: 20 year, salvage: 6 %"},
	{"catalogue.upkeep", "upkeep: 2 %/year", "upkeep: 5 %/year"},
	{"catalogue.running", `"1,500 USD/year"`, `"1,600 USD/year"`},
	{"catalogue.most", "most: 3", "most: 2"},
}

// Every key of planning moves what was read of it; none is read and ignored. Base
// production belongs to the model, and stands for the population.
func TestEveryPlanningKeyMatters(t *testing.T) {
	type read struct {
		planning Planning
		base     float64
		growth   plant.Growth
	}
	of := func(f *File) read {
		p := f.Planning
		p.Inputs = slices.Clone(p.Inputs)
		for i := range p.Inputs {
			p.Inputs[i].set = nil // functions cannot be compared
		}
		return read{p, f.Model.Feed.Base, f.Model.Feed.Growth}
	}
	before := of(parsePlanning(t))
	if !reflect.DeepEqual(before, of(parsePlanning(t))) {
		t.Fatal("the same file is read in two ways")
	}
	for _, c := range planningKeys {
		if reflect.DeepEqual(before, of(parsePlanning(t, c.old, c.new))) {
			t.Errorf("%s: %q instead of %q changes nothing", c.key, c.new, c.old)
		}
	}
}

// Every key of the planning sections of the file is in the list above.
func TestNoPlanningKeyIsForgotten(t *testing.T) {
	var root yaml.Node
	if err := yaml.Unmarshal([]byte(readPlanning(t)), &root); err != nil {
		t.Fatal(err)
	}
	sections := []string{"target", "growth_scenarios", "uncertain", "correlations", "money", "options", "catalogue"}
	found := 0
	var walk func(n *yaml.Node, path string)
	walk = func(n *yaml.Node, path string) {
		if n.Kind == yaml.MappingNode {
			for i := 0; i < len(n.Content); i += 2 {
				walk(n.Content[i+1], strings.TrimPrefix(path+"."+n.Content[i].Value, "."))
			}
			return
		}
		for _, child := range n.Content {
			walk(child, path)
		}
		if n.Kind != yaml.ScalarNode || !slices.Contains(sections, strings.Split(path, ".")[0]) {
			return
		}
		found++
		for _, c := range planningKeys {
			if c.key == path || strings.HasPrefix(path, c.key+".") {
				return
			}
		}
		t.Errorf("no test changes %s", path)
	}
	walk(&root, "")
	if found < 80 {
		t.Errorf("only %d values were found", found)
	}
}

// The lead time of a vessel is in months of the calendar where it is written in
// months or years, else in days, with parts rounded up.
func TestLeadTimeByTheCalendar(t *testing.T) {
	for written, want := range map[string]calendar.Span{
		"18 month": {Months: 18}, "1 year": {Months: 12}, "1.5 year": {Months: 18}, "1.5 month": {Months: 1, Days: 16},
		"36 week": {Days: 252}, "270 day": {Days: 270}, "269.5 day": {Days: 270}, "0 day": {},
	} {
		if got := parsePlanning(t, "lead_time: 10 month\n", "lead_time: "+written+"\n").Planning.VesselLead; got != want {
			t.Errorf("%s is %+v, want %+v", written, got, want)
		}
	}
}
