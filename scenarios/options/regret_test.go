package options

import (
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// costing is a choice with a present worth under each of two growth scenarios; one
// that misses the target there is given with a minus.
func costing(name string, worths ...float64) Choice {
	c := Choice{Name: name}
	for _, w := range worths {
		c.Growths = append(c.Growths, Summary{Keeps: w >= 0, Present: stats.Interval{Estimate: max(w, -w)}})
	}
	return c
}

// Regret by hand, under growth scenarios that are believed in by three to one.
//
// Where one keeps the target, what misses it has no regret and does not lower that
// of others; where none does, the scenario is left out of mean and worst; with a
// price, all have regrets and a regret is over the cheapest of all.
func TestRegretByHand(t *testing.T) {
	type regret struct {
		is          Regretted
		mean, worst float64
	}
	for _, c := range []struct {
		name    string
		missing float64
		choices []Choice
		want    []regret
		unkept  string
	}{
		{"all keep", 0, []Choice{costing("a", 10, 40), costing("b", 14, 20)}, []regret{{Stated, 5, 20}, {Stated, 3, 4}}, ""},
		{"what misses under one", 0, []Choice{costing("a", -10, 40), costing("b", 14, 20), costing("c", 18, 20)},
			[]regret{{MissesTarget, 0, 0}, {Stated, 0, 0}, {Stated, 3, 4}}, ""},
		{"each misses under another", 0, []Choice{costing("a", -10, 40), costing("b", 14, -20)},
			[]regret{{MissesTarget, 0, 0}, {MissesTarget, 0, 0}}, ""},
		{"none keeps under the second", 0, []Choice{costing("a", 10, -40), costing("b", 14, -20), costing("c", -1, -1)},
			[]regret{{Stated, 0, 0}, {Stated, 4, 4}, {MissesTarget, 0, 0}}, "slow"},
		{"none keeps", 0, []Choice{costing("a", -10, -40), costing("b", -14, -20)},
			[]regret{{NothingKeeps, 0, 0}, {NothingKeeps, 0, 0}}, "fast, slow"},
		{"with a price", 0.5, []Choice{costing("a", -10, -40), costing("b", 14, 20)}, []regret{{Stated, 5, 20}, {Stated, 3, 4}}, ""},
	} {
		a := &Answer{Missing: c.missing, Choices: c.choices, Order: []int{0}}
		a.Scenarios = []answer.Scenario{{Name: "fast", Weight: 0.75}, {Name: "slow", Weight: 0.25}}
		a.regrets()
		for i, want := range c.want {
			if got := a.Choices[i]; got.Regretted != want.is || !about(got.Regret, want.mean, 1e-12) || got.WorstRegret != want.worst {
				t.Errorf("%s: regret of %s: %v, %g, at worst %g; want %v", c.name, got.Name, got.Regretted, got.Regret, got.WorstRegret, want)
			}
		}
		if got := strings.Join(a.Unkept(), ", "); got != c.unkept {
			t.Errorf("%s: none keeps the target under %q, want %q", c.name, got, c.unkept)
		}
	}
}

// What is said of regret: under which growth scenarios there is none, that the first
// has none if it misses under one alone, and, with a price, that waiting alone has
// none.
func TestAboutRegret(t *testing.T) {
	say := func(missing, waited float64, choices ...Choice) string {
		a := &Answer{Missing: missing, Choices: choices, Order: []int{0}}
		a.Scenarios, a.Horizon = []answer.Scenario{{Name: "fast", Weight: 0.75}, {Name: "slow", Weight: 0.25}}, 20
		a.Choices[0].All.WaitedAlone, a.Choices[0].Service.Keeps = waited, true
		a.regrets()
		return doc.Join(" ", a.aboutRegret()...).Plain(units.SI)
	}
	for _, c := range []struct{ got, want string }{
		{say(0, 0, costing("a", 1, 2), costing("b", 3, -4)), ""},
		{say(0, 0, costing("a", -1, 2), costing("b", 3, 4)), "but not under “fast” alone, where another does: so it has no mean regret."},
		{say(0, 0, costing("a", -1, 2)), "Under “fast” no choice keeps the target"},
		{say(0, 0, costing("a", -1, -2)), "No choice has a regret"},
		{say(0.5, 0, costing("a", -1, -2)), ""},
		{say(0.5, 1.5, costing("a", -1, -2)), "Cake that only waits too long costs nothing more: so it is in 1.5 of 20 years with “a”."},
	} {
		if c.want == "" && c.got != "" || !strings.Contains(c.got, c.want) {
			t.Errorf("says %q, want %q", c.got, c.want)
		}
	}
}
