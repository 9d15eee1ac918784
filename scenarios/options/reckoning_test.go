package options

import (
	"math"
	"os"
	"strings"
	"testing"

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

// What the costs are made of comes to them again, part by part, also where prices, the
// discount rate and the cost of what is built are drawn, steps wait for signs, and some
// choices have fewer replications than the others.
func TestReckoningComesToTheCosts(t *testing.T) {
	data, err := os.ReadFile("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{
		"as it is": string(data),
		"drawn":    strings.Replace(strings.Replace(string(data), "uncertain:\n", drawn, 1), "replications: 2\n", "replications: 8\n", 1),
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
		waits, fewer := false, false
		for i, c := range a.Ranking() {
			r := &a.reckoning.Choices[i]
			waits = waits || len(r.Waits) > 0
			fewer = fewer || c.Replications < a.Replications
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
		if !waits || len(a.reckoning.Decided) == 0 || len(a.reckoning.Choices) != len(a.Choices) {
			t.Errorf("%s: no step waits for a sign, or none is decided: %+v", name, a.reckoning)
		}
		t.Log(name, "fewer", fewer)
	}
}
