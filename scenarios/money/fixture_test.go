package money

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// failer is a test, or one case of a property.
type failer interface {
	Helper()
	Errorf(format string, args ...any)
}

func near(t failer, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.15g, want %.15g ± %g", what, got, want, tol)
	}
}

// nearly compares to 1e-9 of the larger of want and 1.
func nearly(t failer, what string, got, want float64) {
	t.Helper()
	near(t, what, got, want, 1e-9*max(1, math.Abs(want)))
}

func parse(t *testing.T, field string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(field, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

// readTable returns the rows of a table of testdata/money without its heading.
func readTable(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open("../../testdata/money/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows[1:]
}

// yearEnds puts amounts now and at the end of each year, as textbooks write a
// series.
func yearEnds(amounts ...float64) []Flow {
	out := make([]Flow, len(amounts))
	for i, usd := range amounts {
		out[i] = Flow{At: float64(i), Amount: usd}
	}
	return out
}

// presentWorth is the definition: Σ value/(1+rate)^At, USD.
func presentWorth(flows []Flow, value func(Flow) float64, rate float64) float64 {
	sum := 0.0
	for _, f := range flows {
		sum += value(f) * math.Pow(1+rate, -f.At)
	}
	return sum
}

// gross is what flows are worth in constant money if all were received.
func gross(flows []Flow, r Rates) float64 {
	return presentWorth(flows, func(f Flow) float64 { return math.Abs(r.Constant(f)) }, r.RealDiscount())
}

// byYear adds up flows by year and part.
func byYear(flows []Flow, years int, value func(Flow) float64) []Amounts {
	out := make([]Amounts, years)
	for _, f := range flows {
		out[f.Year][f.Part] += value(f)
	}
	return out
}

// plain has no escalation and textbook timing.
func plain(discount float64) Rates {
	return Rates{Stated: 2027, Start: 2027, Discount: discount}
}

func between(t *rapid.T, name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(t, name)
}

func anyRates(t *rapid.T) Rates {
	return Rates{
		Stated: 2025, Start: between(t, "start", 2023, 2030),
		Discount: between(t, "discount", 0, 0.15), Escalation: between(t, "escalation", -0.02, 0.1),
		Real: rapid.Bool().Draw(t, "real"), Timing: Timing(rapid.IntRange(0, 1).Draw(t, "timing")),
	}
}

func anyPrice(t *rapid.T, name string) Price {
	return Price{Amount: between(t, name, 0, 1000), Escalation: between(t, name+" rise", -0.05, 0.1)}
}

func anyAsset(t *rapid.T) Asset {
	return Asset{
		Name: "vessels", Cost: anyPrice(t, "cost"), Life: between(t, "life", 1, 40), Year: between(t, "year", 0, 25),
		Lead: between(t, "lead", 0, 3), SalvageShare: between(t, "salvage", 0, 1),
		Maintenance: between(t, "maintenance", 0, 0.1), Running: anyPrice(t, "running"),
	}
}

func anyPlan(t *rapid.T) Plan {
	p := Plan{
		Rates: anyRates(t),
		Prices: Prices{
			Labour: anyPrice(t, "labour"), Power: anyPrice(t, "power"), Fuel: anyPrice(t, "fuel"), Carbon: anyPrice(t, "carbon"), Chips: anyPrice(t, "chips"),
			Tipping: anyPrice(t, "tipping"), Missing: anyPrice(t, "missing"), Sampling: anyPrice(t, "sampling"), Product: anyPrice(t, "product"),
			CarbonOfPower: between(t, "carbon of power", 0, 3), CarbonOfFuel: between(t, "carbon of fuel", 0, 10),
		},
		Assets: rapid.SliceOfN(rapid.Custom(anyAsset), 0, 4).Draw(t, "assets"),
	}
	for range rapid.IntRange(1, 30).Draw(t, "years") {
		u := func(name string) float64 { return between(t, name, 0, 100) }
		p.Years = append(p.Years, Use{
			Labour: u("h"), Power: u("kWh"), Fuel: u("fuel m3"), Chips: u("chips m3"), Tipping: u("tipped"),
			Missing: u("beyond"), Sampling: u("events"), Product: u("product m3"), Dry: 1 + u("dry"),
		})
	}
	return p
}

// amounts reads numbers that blanks separate.
func amounts(t *testing.T, field string) []float64 {
	t.Helper()
	var out []float64
	for _, word := range strings.Fields(field) {
		out = append(out, parse(t, word))
	}
	return out
}
