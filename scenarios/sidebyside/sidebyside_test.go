package sidebyside

import (
	"context"
	"errors"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// edited is the small invented plant with some of its text replaced, in pairs.
func edited(t *testing.T, replace ...string) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	for i := 0; i < len(replace); i += 2 {
		if !strings.Contains(text, replace[i]) {
			t.Fatalf("the plant has no %q", replace[i])
		}
		text = strings.ReplaceAll(text, replace[i], replace[i+1])
	}
	path := filepath.Join(t.TempDir(), "plant.yaml")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	f, err := facilityfile.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func ask(t *testing.T, a, b *facilityfile.File, workers, replications int) (*Answer, error) {
	t.Helper()
	var s [2]*study.Study
	for i, f := range []*facilityfile.File{a, b} {
		var err error
		if s[i], err = study.New(f, workers); err != nil {
			t.Fatal(err)
		}
	}
	return Ask(context.Background(), s[0], s[1], [2]answer.Setup{{Source: "a.yaml"}, {Source: "b.yaml"}}, replications)
}

// A key that is written in both, one that only one writes and that has a default in the
// other, and one that only one has are differences; the name of the plant and how a
// value is written are none.
func TestDifferences(t *testing.T) {
	got := differences(edited(t), edited(t, "name: Small invented plan", "name: Another", "batch_time: 25 min", "batch_time: 30 min",
		"  temperature: 10 °C", "  temperature: 10 °C\n  altitude: 300 m", "lead_time: 8 day", "lead_time:   8 day"))
	want := []Difference{{Path: "site.altitude", Second: "300 m"}, {Path: "mix.batch_time", First: "25 min", Second: "30 min"}}
	if len(got) != len(want) {
		t.Fatalf("the differences are %+v", got)
	}
	for i, d := range got {
		if d.Path != want[i].Path || d.Second != want[i].Second || d.Words == "" || want[i].First != "" && d.First != want[i].First {
			t.Errorf("got %+v, want %+v", d, want[i])
		}
	}
	if got := differences(edited(t), edited(t)); len(got) != 0 {
		t.Errorf("a file differs from itself: %+v", got)
	}
}

// Files that say the same are not simulated, and said to be the same.
func TestSame(t *testing.T) {
	a, err := ask(t, edited(t), edited(t, "name: Small invented plan", "name: Another"), 1, 2)
	if err != nil {
		t.Fatal(err)
	}
	if text := rendertest.Text(t, a.Document(), units.US); len(a.Effects) > 0 || !strings.Contains(text, "give every key the same value") {
		t.Errorf("%d effects, and\n%s", len(a.Effects), text)
	}
}

// A price alone changes the cost alone, in every run in the same direction: with chips at
// twice the price by what the chips cost, which is what they cost less again at half of
// it. All else is the same to the last digit. The seed of the second file is that of the
// first, and how many work at it does not matter.
func TestPriceAlone(t *testing.T) {
	cost := func(price string, workers int, more ...string) stats.Interval {
		a, err := ask(t, edited(t), edited(t, append([]string{"price: 11 USD/yd3", "price: " + price}, more...)...), workers, 3)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range a.Effects {
			if e.Name != costName && e.Verdict() != Same {
				t.Errorf("%s: %s changes it: %+v", price, e.Name, e)
			}
		}
		if a.Orders[0].Brief(&a.Orders[0].All) != a.Orders[1].Brief(&a.Orders[1].All) {
			t.Error("the order depends on the price of chips")
		}
		e, ok := a.Cost()
		if !ok {
			t.Fatalf("no cost: %s", a.NoCosts)
		}
		return e.Difference
	}
	dear, cheap := cost("22 USD/yd3", 2), cost("5.5 USD/yd3", 1, "replications: 2", "replications: 2\nseed: 77")
	if dear.Low <= 0 || math.Abs(dear.Estimate+2*cheap.Estimate) > 1e-9*dear.Estimate {
		t.Errorf("at twice the price %+v, at half of it %+v", dear, cheap)
	}
}

// The answer is told for a person and for programs, and fits the screen.
func TestReads(t *testing.T) {
	a, err := ask(t, edited(t), edited(t, "chips_to_cake: 2.5", "chips_to_cake: 2.8", "batch_time: 25 min", "batch_time: 30 min"), 2, 6)
	if err != nil {
		t.Fatal(err)
	}
	rendertest.Reads(t, "compare", a.Document())
}

// What is on one side of nothing is said, and what is not is open.
func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		low, high float64
		want      Verdict
	}{{1, 2, More}, {-2, -1, Less}, {-1, 1, Open}, {0, 0, Same}, {-1e-10, 1e-10, Same}, {0, 1, Open}} {
		e := Effect{First: 10, Second: 11, Difference: stats.Interval{Low: c.low, High: c.high}}
		if got := e.Verdict(); got != c.want {
			t.Errorf("from %g to %g: %v, want %v", c.low, c.high, got, c.want)
		}
	}
}

// Costs in other money, of other years or without prices are not compared, and said why.
func TestNoCosts(t *testing.T) {
	plain := edited(t)
	euros := edited(t, "USD", "EUR")
	longer := edited(t, "horizon: 10 year", "horizon: 12 year")
	unpriced := *plain
	unpriced.Planning.Priced = false
	for _, c := range []struct {
		other *facilityfile.File
		want  string
	}{{plain, ""}, {euros, "in USD, the other in EUR"}, {longer, "other years"}, {&unpriced, "not both files have prices"}} {
		if got := noCosts(plain, c.other); !strings.HasSuffix(got, c.want) || (got == "") != (c.want == "") {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
}

// One run tells nothing of how sure a difference is.
func TestTooFew(t *testing.T) {
	_, err := ask(t, edited(t), edited(t, "batch_time: 25 min", "batch_time: 30 min"), 1, 1)
	if wrong := (*answer.OptionError)(nil); !errors.As(err, &wrong) || wrong.Option != "replications" {
		t.Errorf("the error is %v", err)
	}
}

// What a contract hauls is told beside what leaves untreated where either file has one,
// and only there.
func TestContract(t *testing.T) {
	for _, c := range []struct{ first, second, told bool }{{false, false, false}, {true, false, true}, {false, true, true}} {
		a := &Answer{Basis: answer.Basis{Contracts: c.first}, Second: answer.Basis{Contracts: c.second}}
		list := a.measures()
		if told := list[2].name == byContract.name; told != c.told || list[1].name != "dry solids untreated" || len(list) != len(a.measures()) {
			t.Errorf("%+v: measured are %d, the third %q", c, len(list), list[2].name)
		}
	}
	month := plant.Month{}
	month.Holding.ContractDry = 7
	if got := byContract.of(&month); got != 7 {
		t.Errorf("a month that hauls 7 kg has %g", got)
	}
}
