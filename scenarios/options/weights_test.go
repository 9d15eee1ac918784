package options

import (
	"math"
	"testing"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
)

// Growth scenarios count by their weights, which need not add up to 1 among those
// that are looked at; one alone counts wholly, also if nobody believes in it. By
// hand: years missed 1, 0 and 1 by weights 0.2, 0.5 and 0.3 are 0.5 in all, and
// 0.3/0.8 in the last two.
func TestGrowthScenariosCountByTheirWeights(t *testing.T) {
	f := &facilityfile.File{}
	for _, weight := range []float64{0.2, 0.5, 0.3, 0} {
		f.Planning.Growths = append(f.Planning.Growths, facilityfile.GrowthScenario{Weight: weight})
	}
	run := func(missed bool) []outcome { return []outcome{{missed: []bool{missed}}} }
	c := &comparison{file: f, singles: make([][]single, 1), runs: [][][]outcome{{run(true), run(false), run(true), run(true)}}}
	for _, x := range []struct {
		growths []int
		want    float64
	}{{c.everywhere(), 0.5}, {[]int{1, 2}, 0.3 / 0.8}, {[]int{0}, 1}, {[]int{1}, 0}, {[]int{3}, 1}} {
		got := c.weighted(0, x.growths, missed(0))
		if len(got) != 1 || got[0] < x.want-1e-12 || got[0] > x.want+1e-12 {
			t.Errorf("growth scenarios %v: %v of the runs miss, want %v", x.growths, got, x.want)
		}
	}
}

// A replication under one growth scenario counts as one under all, and among those of its
// own growth, by hand: of two replications under both growths, of weights 0.25 and 0.75,
// the first misses under the first growth, 0.25 of it; of two under one each, that under
// the second misses. In all 1.25 of four miss, under the first growth 1 of 3, under the
// second 1 of 3. When another replication is run under both, it takes the place of the
// first of the single ones, and the second is left.
func TestSingleReplicationsCountByTheirGrowth(t *testing.T) {
	f := &facilityfile.File{}
	f.Model.Years = 1
	f.Planning.Growths = []facilityfile.GrowthScenario{{Weight: 0.25}, {Weight: 0.75}}
	run := func(missed bool) outcome { return outcome{missed: []bool{missed}} }
	c := &comparison{file: f, runs: [][][]outcome{{{run(true), run(false)}, {run(false), run(false)}}}, singles: make([][]single, 1)}
	c.keep(round{places: []place{{0, 0, true}, {0, 1, true}}}, []outcome{run(false), run(true)})
	shares := func() (out [3]float64) {
		for i, growths := range [][]int{{0, 1}, {0}, {1}} {
			s, err := c.byRuns(0, growths)
			if err != nil {
				t.Fatal(err)
			}
			out[i] = s.Years[0]
		}
		return out
	}
	if got, want := shares(), [3]float64{1.25 / 4, 1.0 / 3, 1.0 / 3}; got != want || c.judged(0) != 4 || c.replications(0) != 2 {
		t.Errorf("shares %v, want %v; %d and %d replications, want 4 and 2", got, want, c.judged(0), c.replications(0))
	}
	c.keep(round{places: []place{{0, 0, false}, {0, 1, false}}}, []outcome{run(false), run(false)})
	if got, want := shares(), [3]float64{1.25 / 4, 1.0 / 3, 1.0 / 4}; got != want || c.judged(0) != 4 || c.replications(0) != 3 {
		t.Errorf("shares %v, want %v; %d and %d replications, want 4 and 3", got, want, c.judged(0), c.replications(0))
	}
}

// Which year is the first missed, and whether that is certain, by hand: of 20 runs
// 5 % may miss. One of them (Wilson's interval: 0.9 to 23.6 %) leaves it open, four
// (8.1 to 41.6 %) do not, and none (0 to 16.1 %) is taken for a year that is kept
// before one that misses. The ends are Wilson's formula, worked out.
func TestFirstMissedYearByHand(t *testing.T) {
	f := &facilityfile.File{}
	f.Planning.Target.MissShare = 0.05
	f.Planning.Growths = []facilityfile.GrowthScenario{{Weight: 1}}
	for _, x := range []struct {
		missing            []int // runs by year
		first, may, surely int
		keeps, year        bool
	}{
		{[]int{0, 0, 0}, -1, -1, -1, true, true},
		{[]int{0, 1, 0}, -1, 1, -1, true, true},
		{[]int{0, 0, 4}, 2, 2, 2, false, true},
		{[]int{0, 1, 4}, 2, 1, 2, false, false},
		{[]int{0, 2, 4}, 1, 1, 2, false, false},
		{[]int{0, 2, 2}, 1, 1, -1, false, false},
		{[]int{20, 2, 0}, 0, 0, 0, false, true},
	} {
		f.Model.Years = len(x.missing)
		runs := make([]outcome, 20)
		for rep := range runs {
			for _, n := range x.missing {
				runs[rep].missed = append(runs[rep].missed, rep < n)
			}
		}
		c := &comparison{file: f, singles: make([][]single, 1), runs: [][][]outcome{{runs}}}
		s, err := c.byRuns(0, c.everywhere())
		if err != nil || s.FirstMissed != x.first || s.MayMiss != x.may || s.SurelyMissed != x.surely || s.Keeps != x.keeps || s.YearSure() != x.year {
			t.Errorf("%v of 20 runs miss: %+v, %v; want first %d, may %d, surely %d", x.missing, s, err, x.first, x.may, x.surely)
		}
	}
}

// A comparison is settled only if the first missed year of a cheaper choice is not
// in doubt either; that of a dearer one may be.
func TestYearInDoubtMatters(t *testing.T) {
	open := func(over float64) Choice {
		c := choice("another", 1, over)
		c.Service.MayMiss = 0
		return c
	}
	for over, want := range map[float64]bool{-10: true, 10: false} {
		if got := written(1, choice("two vessels", -1, 0), open(over)).yearInDoubt(1); got != want {
			t.Errorf("a choice that costs %g more: in doubt %v, want %v", over, got, want)
		}
	}
}

// By what the plant carries, of which each year's share has a range, by hand: 5 % may
// miss. The first year is kept; the second has 4 %, but for all that is known 6 %; the
// third surely misses. Under the growth believed in by one to three alone the shares are
// as in the first year throughout, and mixed they are by weight. Whole runs contradict
// where all of twelve miss what 4 % should, and not where one does.
func TestServiceByWhatIsCarried(t *testing.T) {
	f := &facilityfile.File{}
	f.Model.Years = 3
	f.Planning.Target.MissShare = 0.05
	f.Planning.Growths = []facilityfile.GrowthScenario{{Weight: 0.75}, {Weight: 0.25}}
	low, high := capability.Constant(0, 3, 1), capability.Constant(0, 3, 1)
	for q := range capability.Quarters {
		high[1][q] = capability.Sample{0.04 / 0.75, 0.06 / 0.75}
		high[2][q] = capability.Sample{0.3 / 0.75, 0.2 / 0.75}
	}
	runs := func(missed ...bool) [][]outcome {
		var out []outcome
		for rep := range 12 {
			out = append(out, outcome{missed: []bool{false, missed[0] && (rep == 0 || missed[1]), false}})
		}
		return [][]outcome{out, out}
	}
	c := &comparison{file: f, odds: [][]capability.Odds{{high, low}}, singles: make([][]single, 1), runs: [][][]outcome{runs(true, false)}}
	s, err := c.service(0, c.everywhere())
	if err != nil || s.ByRuns || s.FirstMissed != 2 || s.MayMiss != 1 || s.SurelyMissed != 2 || s.Keeps || s.YearSure() || math.Abs(s.YearsMissed-0.34) > 1e-12 || s.Worst != 2 {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err = c.service(0, []int{1}); err != nil || !s.Keeps || !s.Sure || s.MayMiss >= 0 {
		t.Errorf("under the other growth %+v, %v", s, err)
	}
	if c.contradicted(0) {
		t.Error("one of twelve runs contradicts")
	}
	if c.runs[0] = runs(true, true); !c.contradicted(0) {
		t.Error("twelve of twelve runs do not contradict")
	}
}
