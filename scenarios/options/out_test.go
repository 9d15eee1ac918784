package options

import (
	"math"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

// What is out of it costs what the first does, and the difference in the replications
// that both have, by hand. The first costs 10, 12, 14 and 20 in four replications, 14 in
// the mean; another cost 3 and 5 more in two of them, so that it costs 18, and not the
// 15 of its own two, which were cheap ones. Its interval is about that, and so are its
// quantiles. The plant as it is costs 1 more than the first throughout, so that the other
// costs 3 more than it.
func TestFewRunsTellACostByItsDifference(t *testing.T) {
	f := &facilityfile.File{}
	f.Model.Years = 1
	f.Planning.Growths = []facilityfile.GrowthScenario{{Weight: 1}}
	costing := func(usd ...float64) [][]outcome {
		var out []outcome
		for _, x := range usd {
			out = append(out, outcome{cost: money.Cost{Present: x, Annual: x / 10}, missed: []bool{false}})
		}
		return [][]outcome{out}
	}
	c := &comparison{file: f, singles: make([][]single, 3), runs: [][][]outcome{costing(11, 13, 15, 21), costing(10, 12, 14, 20), costing(13, 17)}, out: []bool{false, false, true}}
	c.cases = append(c.cases, nil, nil, nil)
	c.odds = append(c.odds, nil, nil, nil)
	few, err := c.summary(2, 1, c.everywhere())
	if err != nil {
		t.Fatal(err)
	}
	base, err := c.summary(asIs, 1, c.everywhere())
	if err != nil {
		t.Fatal(err)
	}
	near := func(got, want float64) bool { return math.Abs(got-want) < 1e-9 }
	if !near(few.Present.Estimate, 18) || !near(few.Annual, 1.8) || !near(few.OverFirst.Estimate, 4) || !near(few.Low, 13+3) || !near(few.High, 17+3) {
		t.Errorf("what is out of it: %+v", few)
	}
	if !near(base.Present.Estimate, 15) || !near(base.OverFirst.Estimate, 1) || base.OverAsIs.HalfWidth() != 0 || !near(few.OverAsIs.Estimate, 3) {
		t.Errorf("the plant as it is: %+v", base)
	}
	// t of one degree of freedom, 12.7062, times the standard error of 13 and 17, and of 2 and 4.
	if !near(few.Present.HalfWidth()/2, 12.706204736) || !near(few.OverAsIs.HalfWidth(), 12.706204736) {
		t.Errorf("the intervals are %+v and %+v", few.Present, few.OverAsIs)
	}
}

// Out of it is what surely misses the target by what the plant carries, where the first
// surely keeps it by that; what is judged by its runs or in doubt is not, and nothing is
// if the first is either, or misses it; nor ever is the plant as it is.
func TestWhatIsOutOfIt(t *testing.T) {
	kept, missed := Service{Keeps: true, Sure: true}, Service{Sure: true}
	doubt, byRuns := Service{}, Service{Sure: true, ByRuns: true}
	unsure, keptByRuns := Service{Keeps: true}, Service{Keeps: true, Sure: true, ByRuns: true}
	for _, x := range []struct {
		first, other Service
		want         bool
	}{
		{kept, missed, true}, {kept, doubt, false}, {kept, byRuns, false}, {kept, kept, false},
		{unsure, missed, false}, {keptByRuns, missed, false}, {missed, missed, false},
	} {
		a := &Answer{Choices: []Choice{{Service: missed}, {Service: x.other}, {Service: x.first}}, Order: []int{2, 1, 0}}
		if got := a.outOfIt(1); got != x.want || a.outOfIt(asIs) {
			t.Errorf("%+v beside %+v: out of it %v, want %v", x.other, x.first, got, x.want)
		}
	}
	var none stats.Interval
	if moved(none, 1) != (stats.Interval{Estimate: 1, Low: 1, High: 1}) {
		t.Error("an interval moves with its estimate")
	}
}

// One round is enough where the chance is 99 % and the difference that the headline tells is
// known to a tenth, be it from the next that keeps the target or from the cheapest of the
// rest.
func TestWhenOneRoundIsEnough(t *testing.T) {
	for _, x := range []struct {
		chance, half float64
		missed       int // by the other, from this year on; −1 keeps the target
		want         bool
	}{
		{0.995, 9, -1, true}, {0.995, 11, -1, false}, {0.98, 9, -1, false},
		{1, 9, 1, true}, {1, 11, 1, false},
	} {
		other := choice("another", x.missed, 100)
		other.All.OverFirst = stats.Interval{Estimate: 100, Low: 100 - x.half, High: 100 + x.half}
		if got := written(x.chance, choice("two vessels", -1, 0), other).plain(); got != x.want {
			t.Errorf("%+v: enough %v", x, got)
		}
	}
}
