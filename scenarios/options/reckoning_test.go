package options

import (
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/costs"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
)

// reckonedParts adds the parts of a choice up again, by the prices of the reckoning.
func reckonedParts(r *doc.Reckoning, c *doc.ReckonedChoice) money.Amounts {
	var sum money.Amounts
	at := func(y int, rise float64) float64 { return r.Rates.Worth(r.Rates.Timing.Instant(y), rise) }
	for i, it := range r.Items {
		sign := 1.0
		if it.Part == money.Sales {
			sign = -1
		}
		for y, q := range c.Used[i] {
			sum[it.Part] += sign * q * it.Price.Amount * at(y, it.Price.Escalation)
		}
	}
	for _, steps := range [][]doc.ReckonedStep{r.Decided, c.Steps} {
		for _, s := range steps {
			for _, f := range s.Asset.Flows(r.Horizon, r.Rates.Timing) {
				for k, part := range doc.BuiltParts {
					if part == f.Part {
						sum[part] -= s.Times[k] * r.Rates.PresentWorth([]money.Flow{f})
					}
				}
			}
		}
	}
	for k, part := range doc.BuiltParts {
		rise := r.Capital
		if part == money.Running {
			rise = r.Rates.Escalation
		}
		for y, paid := range c.Loose[k] {
			sum[part] += paid * at(y, rise)
		}
	}
	return sum
}

// drawn adds prices, the discount rate and the cost of what is built to what is uncertain.
const drawn = `uncertain:
  - {input: money.discount, uniform: [4 %/year, 7 %/year]}
  - {input: money.capital, uniform: [-10 %, 40 %]}
  - {input: money.product, uniform: [-3 USD/yd3, 3 USD/yd3]}
  - {input: chips.price, uniform: [8 USD/yd3, 16 USD/yd3]}
`

// amended adds amendments to the recipe, and amendedMaterials are these.
const amended = `mix:
  amendments:
    - {material: sawdust, to_cake: 0.1, store: 12 m3, bought: {reorder_at: 5 m3, order_up_to: 12 m3, truckload: 6 m3, lead_time: 10 day}}
    - {material: yard waste, to_cake: 0.2, when_short: do without, store: 4 m3, own_per_day: 0.5 m3/day, own_price: 2 USD/m3}
`

const amendedMaterials = `
materials:
  - {name: sawdust, moisture: 35 %, volatile_solids: 98 %, slowly_degradable: 25 %, nitrogen: 0.2 %, bulk_density: 240 kg/m3, cost: 12 USD/m3}
  - {name: yard waste, moisture: 45 %, volatile_solids: 85 %, readily_degradable: 5 %, slowly_degradable: 20 %, nitrogen: 0.8 %, bulk_density: 300 kg/m3, cost: 1 USD/m3}
`

// What the costs are made of comes to them again, part by part, also where prices, the
// discount rate and the cost of what is built are drawn, and steps wait for signs. The
// catalogue, of which the search would take most of the time, is left out.
func TestReckoningComesToTheCosts(t *testing.T) {
	data, err := os.ReadFile("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	from, to := strings.Index(string(data), "catalogue:"), strings.Index(string(data), "# How loads hold air")
	data = append(data[:from:from], data[to:]...)
	for name, text := range map[string]string{
		"as it is": string(data),
		// A tipping fee that the file does not have but draws, and product that is sold in
		// some months and hauled away at a fee in others.
		"odd prices": strings.NewReplacer("tipping: 75 USD/short ton", "tipping: 0 USD/short ton",
			"product: 6 USD/yd3", "product: [6 USD/yd3, 6 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, 0 USD/yd3, -6 USD/yd3, -6 USD/yd3]").Replace(string(data)),
		"a contract": string(data) + "hauling_contract: {most_per_month: 20 short ton, notice: 1 day, call_at: 30 %, down_to: 10 %, price: 60 USD/short ton}\n",
		"amendments": strings.Replace(string(data), "mix:\n", amended, 1) + amendedMaterials,
		"drawn":      strings.Replace(strings.Replace(string(data), "uncertain:\n", drawn, 1), "replications: 2\n", "replications: 3\n", 1),
	} {
		f, err := facilityfile.Parse("planning.yaml", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		a := mustAsk(t, s, Options{})
		waits, times := false, false
		tipping, sold := a.reckoning.Items[placeOf(t, a.reckoning, money.Tipping)], a.reckoning.Items[placeOf(t, a.reckoning, money.Sales)]
		if odd := name == "odd prices"; (tipping.Price.Amount != f.Planning.Economy.Prices.Tipping.Amount) != odd || strings.Contains(sold.Note, "by month") != odd {
			t.Errorf("%s: counted by %+v and %+v", name, tipping, sold)
		}
		hauled := 0.0
		for i, c := range a.Ranking() {
			r := &a.reckoning.Choices[i]
			for _, paid := range r.Used[placeOf(t, a.reckoning, money.Contract)] {
				hauled += paid
			}
			waits = waits || len(r.Waits) > 0
			for _, step := range r.Steps {
				times = times || step.Times[0] != 1
			}
			sum := reckonedParts(a.reckoning, r)
			for part, want := range c.All.ByPart {
				if got := sum[part]; math.Abs(got-want) > 1e-9*math.Abs(c.All.Present.Estimate) {
					t.Errorf("%s, %s, %v: %v, and the runs came to %v", name, c.Name, money.Part(part), got, want)
				}
			}
			if got, want := sum.Total(), c.All.Present.Estimate; math.Abs(got-want) > 1e-9*math.Abs(want) {
				t.Errorf("%s, %s: %v, and the runs came to %v", name, c.Name, got, want)
			}
		}
		named := map[string]bool{}
		for i, it := range a.reckoning.Items {
			for _, c := range a.reckoning.Choices {
				named[it.Name] = named[it.Name] || slices.Max(c.Used[i]) > 0
			}
		}
		for _, item := range []string{"sawdust, bought", "yard waste, of own sources"} {
			if amended := name == "amendments"; named[item] != amended || named["amendments"] {
				t.Errorf("%s: %s is used: %v; amendments together: %v", name, item, named[item], named["amendments"])
			}
		}
		if contract := name == "a contract"; (hauled > 0) != contract {
			t.Errorf("%s: %g USD are paid by contract", name, hauled)
		}
		if !waits || len(a.reckoning.Decided) == 0 || len(a.reckoning.Choices) != len(a.Choices) {
			t.Errorf("%s: no step waits for a sign, or none is decided: %+v", name, a.reckoning)
		}
		if drawn := name == "drawn"; times != drawn || a.reckoning.DrawnRate != drawn {
			t.Errorf("%s: costs of steps are drawn: %v, and the discount rate: %v", name, times, a.reckoning.DrawnRate)
		}
	}
}

// placeOf finds the item of a part.
func placeOf(t *testing.T, r *doc.Reckoning, part money.Part) int {
	t.Helper()
	i := slices.IndexFunc(r.Items, func(it doc.ReckonedItem) bool { return it.Part == part })
	if i < 0 {
		t.Fatalf("no item is %v", part)
	}
	return i
}

// What has few runs uses what the first does and the difference in the runs that both
// have, by hand, as its cost is. The first works 14 hours in the mean of four runs, and 4
// less than the other in two of them; steps that wait for a sign cost it 8 in the mean, and
// 2 less than the other in those two. A step that is decided costs 3 in all runs.
func TestReckoningOfFewRuns(t *testing.T) {
	f := &facilityfile.File{}
	f.Model.Years = 1
	f.Planning.Growths = []facilityfile.GrowthScenario{{Weight: 1}}
	f.Planning.Economy.Prices.Labour.Amount = 2
	c := &comparison{file: f, reference: costs.NewReference(f, nil), out: []bool{false, false, true}}
	for _, runs := range [][][2]float64{{{9, 5}, {11, 7}, {13, 9}, {19, 11}}, {{10, 5}, {12, 7}, {14, 9}, {20, 11}}, {{13, 6}, {17, 10}}} {
		var list []outcome
		for _, r := range runs {
			o := outcome{missed: []bool{false}, account: costs.Account{Used: make([][]float64, len(c.reference.Items))}}
			for i := range o.account.Used {
				o.account.Used[i] = []float64{0}
			}
			for k := range doc.BuiltParts {
				o.account.Built[k], o.account.Decided[k], o.account.Chosen[k] = []float64{0}, []float64{0}, []float64{0}
			}
			o.account.Used[0][0], o.account.Built[0][0], o.account.Decided[0][0] = r[0], r[1]+3, 3
			o.cost.ByPart[money.Labour], o.cost.ByPart[money.Capital] = 2*r[0], r[1]+3
			list = append(list, o)
		}
		c.runs = append(c.runs, [][]outcome{list})
		c.cases = append(c.cases, []*study.Case{{}})
		c.singles = append(c.singles, nil)
		c.odds = append(c.odds, nil)
	}
	few := c.reckoned(&Answer{Choices: make([]Choice, 3)}, 2, 1)
	if hours, paid := few.Used[0][0], few.Loose[0][0]; math.Abs(hours-18) > 1e-12 || math.Abs(paid-10) > 1e-12 {
		t.Errorf("%v hours and %v for what waits", hours, paid)
	}
	s, err := c.summary(2, 1, c.everywhere())
	if err != nil || s.ByPart[money.Labour] != 36 || s.ByPart[money.Capital] != 13 {
		t.Errorf("%v, %v", s.ByPart, err)
	}
}
