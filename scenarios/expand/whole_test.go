package expand

import (
	"math"
	"testing"

	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

// wholeOfMisses is a plan of two years whose runs miss the years at the
// replications given.
func wholeOfMisses(n int, misses ...[]int) *whole {
	w := &whole{path: path{configs: []int{3, 4}}, runs: map[int]outcome{}}
	for rep := range n {
		w.runs[rep] = outcome{missed: make([]bool, len(misses))}
	}
	for y, list := range misses {
		for _, rep := range list {
			w.runs[rep].missed[y] = true
		}
	}
	return w
}

// A plan is judged by its first year that the test says is missed, together with
// the configuration in force; by years after the last that must be kept not at all;
// and where the test cannot tell, more runs than may miss are too many. At 2 and
// 10 %, four misses in a row decide and 35 runs without any.
func TestJudge(t *testing.T) {
	test := stats.ShareTest{Low: 0.02, High: 0.1, WrongAbove: 0.05, WrongBelow: 0.05}
	none, first, many := []int{}, []int{0}, []int{0, 1, 2, 3}
	for _, c := range []struct {
		name    string
		n       int
		misses  [][]int
		through int
		year    int // missed by the test, −1 for none
		decided bool
		above   int // missed by more than 5 % of the runs
	}{
		{"all kept", 40, [][]int{none, none}, 1, -1, true, -1},
		{"too few runs", 20, [][]int{none, none}, 1, -1, false, -1},
		{"second year missed", 40, [][]int{none, many}, 1, 1, true, 1},
		{"missed after the last that counts", 40, [][]int{none, many}, 0, -1, true, -1},
		{"open, within what may miss", 40, [][]int{{0, 20}, none}, 1, -1, false, -1},
		{"open, beyond what may miss", 15, [][]int{none, first}, 1, -1, false, 1},
	} {
		w := wholeOfMisses(c.n, c.misses...)
		missed, decided := w.judge(test, c.through)
		if got := yearOf(missed); got != c.year || decided != c.decided {
			t.Errorf("%s: year %d, decided %v", c.name, got, decided)
		}
		if got := yearOf(w.above(0.05, c.through)); got != c.above {
			t.Errorf("%s: year %d is above", c.name, got)
		}
		if missed != nil && missed.config != w.configs[missed.year] {
			t.Errorf("%s: configuration %d", c.name, missed.config)
		}
	}
}

func yearOf(m *missedYear) int {
	if m == nil {
		return -1
	}
	return m.year
}

// Only replications without a gap count, since plans are compared by what they
// share.
func TestReplicationsWithoutGap(t *testing.T) {
	w := wholeOfMisses(5, nil)
	delete(w.runs, 3)
	if got := w.replications(); got != 3 {
		t.Errorf("%d replications, want 3", got)
	}
}

// What a plan costs is told as what the first does and what it costs more, whatever
// replications it has itself: by hand, the first costs 10, 12, 14 and 20, in the mean
// 14, the other 11 and 15, 1 and 3 more, so 16, all of it and all that it costs more for
// building; its own mean of 13 would be less than the first. A run of the first that was made
// for other plans, of 90, does not count.
func TestCostsGoBesideTheFirst(t *testing.T) {
	costing := func(usd ...float64) *whole {
		w := wholeOfMisses(len(usd))
		for rep, present := range usd {
			out := outcome{cost: money.Cost{Present: present}}
			out.cost.ByPart[money.Capital] = present
			w.runs[rep] = out
		}
		return w
	}
	first, other := costing(10, 12, 14, 20, 90), costing(11, 15)
	first.told = 4
	var p Plan
	if err := p.costs(other, first); err != nil {
		t.Fatal(err)
	}
	if p.Present.Estimate != 16 || p.OverFirst.Estimate != 2 || p.ByPart[money.Capital] != 16 || p.Build() != 16 {
		t.Errorf("%+v, want 16 in all, 2 over the first", p)
	}
	if math.Abs(p.Low-14.4) > 1e-9 || math.Abs(p.High-17.6) > 1e-9 { // 11.4 and 14.6 of its own, definition 7 of Hyndman and Fan
		t.Errorf("8 of 10 runs from %g to %g, want 14.4 to 17.6", p.Low, p.High)
	}
	if err := p.costs(first, first); err != nil || p.Present.Estimate != 14 || p.OverFirst.Estimate != 0 {
		t.Errorf("the first itself: %+v, %v", p, err)
	}
}
