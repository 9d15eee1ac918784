package expand

import (
	"context"
	"math"
	"slices"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

func screened(t *testing.T, alter ...func(*plant.Model)) *expansion {
	t.Helper()
	f, err := facilityfile.Open("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, change := range alter {
		change(&f.Model)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	e, err := newExpansion(context.Background(), s, answer.Setup{}, Options{Replications: 10, Plans: DefaultPlans})
	if err != nil {
		t.Fatal(err)
	}
	if err := e.screen(context.Background()); err != nil {
		t.Fatal(err)
	}
	return e
}

// What was told wrongly is put right by the runs of whole plans: told that
// the plant lasts as it is, the search finds that it does not, and builds.
func TestWholeRunsCorrectWhatIsCarried(t *testing.T) {
	e := screened(t)
	right := e.last[0]
	e.learn(0, e.years-1)
	c, through, err := e.settle(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	if through != e.years-1 || len(e.stepsOf(c.plans[0].path)) == 0 {
		t.Errorf("kept through year %d with %v", through, c.plans[0].configs)
	}
	if e.last[0] < right || e.last[0] > right+1 {
		t.Errorf("the plant as it is lasts through year %d; whole runs, which contradict no year in doubt, say %d", right, e.last[0])
	}
}

// Screening errs on the long side: no configuration lasts longer in simulation
// than it was expected to. That holds where the file itself adds vessels after a
// year has been missed, or lets the screen become too slow.
func TestEstimatesAreLong(t *testing.T) {
	from := func(year int, c plant.Change) func(*plant.Model) {
		return func(m *plant.Model) {
			m.Feed.Base *= 1.3 // 8 vessels miss the first years
			c.Name, c.Date = "the file's own", m.Start.AddYears(year)
			m.Changes = []plant.Change{c}
		}
	}
	for _, c := range []struct {
		name  string
		alter func(*plant.Model)
	}{
		{"as it is", func(*plant.Model) {}},
		{"vessels come late", from(2, plant.Change{Vessels: 4})},
		{"screen becomes slow", from(3, plant.Change{ScreenCapacity: 0.1})},
	} {
		t.Run(c.name, func(t *testing.T) { estimatesAreLong(t, screened(t, c.alter)) })
	}
}

func estimatesAreLong(t *testing.T, e *expansion) {
	expected, err := e.lasts()
	if err != nil {
		t.Fatal(err)
	}
	longer := 0
	for c := range e.size {
		if e.last[c] == unknown {
			if err := e.simulate(context.Background(), c); err != nil {
				t.Fatal(err)
			}
		}
		if e.last[c] > expected[c] {
			t.Errorf("%v lasts through year %d, expected %d at most", e.counts(c), e.last[c], expected[c])
		}
		if e.last[c] < expected[c] {
			longer++
		}
	}
	t.Logf("%d of %d configurations were expected to last longer than they do", longer, e.size)
}

// A configuration lasts at least as long as any that it only adds to, and at most
// as long as any that only adds to it.
func TestBounds(t *testing.T) {
	k := &lasting{lattice: newLattice([]int{2, 1}), years: 10, helps: []bool{true, true}, last: slices.Repeat([]int{unknown}, 6), fails: make([][]plant.Capacity, 6)}
	k.learn(0, 3) // as it is
	k.learn(2, 6) // the first step twice
	for _, c := range []struct{ config, kept, missed int }{
		{1, 3, 7}, {3, 3, 10}, {4, 3, 10}, {5, 6, 10},
	} {
		if kept, missed := k.bounds(c.config); kept != c.kept || missed != c.missed {
			t.Errorf("%v: kept %d, missed %d; want %d, %d", k.counts(c.config), kept, missed, c.kept, c.missed)
		}
	}
	if !k.known(5, 6) || k.known(5, 7) || !k.known(2, 9) {
		t.Error("what is known is wrong")
	}
	k.helps[0] = false
	if kept, missed := k.bounds(1); kept != -1 || missed != 10 {
		t.Errorf("of a step that may do harm follows kept %d, missed %d", kept, missed)
	}
}

// What a plant gains by a step is taken for 3 % more than its stage gains, for a
// plant may gain more than any stage of it does; a stage that had room to spare
// gains nothing, and what a buffer gains is not known. By hand: 300 kg/day came in
// on a day of the busiest month, so that a stage of more than 1.6 times as much, of
// 480, was not short. One stage goes from 200 to 250, another from 600
// to 900.
func TestGainOfAStep(t *testing.T) {
	stages := func(one, other float64) []plant.Capacity {
		return []plant.Capacity{{Stage: 0, CakeDry: one}, {Stage: 1, CakeDry: other}}
	}
	k := &lasting{
		lattice: newLattice([]int{1, 1}), years: 2, last: []int{0, unknown, unknown, unknown},
		steps: make([]facilityfile.Step, 2),
		fed:   []float64{250 * calendar.DaysPerYear, 250 * calendar.DaysPerYear}, busiest: 1.2,
		fails:   [][]plant.Capacity{stages(200, 600), nil, nil, nil},
		sustain: [][]plant.Capacity{stages(200, 600), stages(250, 900), stages(200, 600), nil},
	}
	for _, c := range []struct {
		more int
		want float64
	}{{1, 250.0 / 200 * 1.03}, {2, 1}} {
		if got, err := k.gain(0, c.more); err != nil || math.Abs(got-c.want) > 1e-12 {
			t.Errorf("gain of configuration %d is %v (%v), by hand %v", c.more, got, err, c.want)
		}
	}
	k.steps[1].Holding = 1000
	if got, err := k.gain(0, 2); err != nil || !math.IsInf(got, 1) {
		t.Errorf("gain of a holding is %v (%v), but is not known", got, err)
	}
}

// Steps that take something away do not only help: thinner cake, a slower screen,
// and a week that is closed at some hour at which a stage works now.
func TestHelps(t *testing.T) {
	week := func(from, to int) *calendar.Work {
		const hour = 60
		shift := []calendar.Shift{{Open: from * hour, Close: to * hour}}
		hours, err := calendar.NewWork(calendar.Clock{Start: calendar.Date{Year: 2027, Month: 1, Day: 1}}, calendar.Week{shift, shift, shift, shift, shift, shift, shift})
		if err != nil {
			t.Fatal(err)
		}
		return hours
	}
	m := &plant.Model{}
	m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = week(8, 16), week(7, 15), week(8, 12)
	m.Screening.Settings.Capacity = 20
	for _, c := range []struct {
		change plant.Change
		helps  bool
	}{
		{plant.Change{Vessels: 1, Pad: 100, CakeSolids: 0.02, ScreenCapacity: 30}, true},
		{plant.Change{CakeSolids: -0.01}, false},
		{plant.Change{Vessels: 1, Holding: 1000}, false}, // what it holds may wait too long
		{plant.Change{ScreenCapacity: 15}, false},
		{plant.Change{Hours: week(7, 16)}, true},
		{plant.Change{Hours: week(8, 20)}, false}, // vessels are moved from 7 on
	} {
		if got := helps(facilityfile.Step{Change: c.change}, m); got != c.helps {
			t.Errorf("%+v: %v, want %v", c.change, got, c.helps)
		}
	}
}

// Where whole runs judge, a year that the test cannot judge by all the runs allowed is
// missed if more of them miss it than may: 3 of 10, where 20 % may, and not 2.
func TestOpenYearsAreJudgedByTheirShare(t *testing.T) {
	e := screened(t)
	e.steady = false
	for _, c := range []struct {
		misses []int
		year   int
	}{{[]int{0, 4, 8}, 0}, {[]int{0, 6}, -1}} {
		w := wholeOfMisses(10, c.misses)
		e.most = 10
		missed, err := e.test(context.Background(), w, 0)
		if err != nil || yearOf(missed) != c.year {
			t.Errorf("%v: year %d missed (%v), want %d", c.misses, yearOf(missed), err, c.year)
		}
	}
}

// Where what configurations carry tells the years, whole runs contradict only where
// chance hardly would: of 24 runs, where 20 % may, not with 9 that miss, and with 11.
func TestWholeRunsContradict(t *testing.T) {
	e := screened(t)
	for _, c := range []struct{ n, year int }{{9, -1}, {11, 0}} {
		var misses []int
		for i := range c.n {
			misses = append(misses, i)
		}
		missed, decided := e.judge(wholeOfMisses(24, misses), 0)
		if yearOf(missed) != c.year || !decided {
			t.Errorf("%d of 24 runs: year %d is missed, decided %v", c.n, yearOf(missed), decided)
		}
	}
	if _, decided := e.judge(wholeOfMisses(9, nil), 0); decided {
		t.Error("nine runs check nothing")
	}
}

// A search is settled only if the target is surely kept by what comes first, however
// sure the costs are.
func TestOpenTargetIsNotSettled(t *testing.T) {
	e := screened(t)
	w := wholeOfMisses(e.most, make([][]int, e.years)...)
	w.configs, w.told = make([]int, e.years), e.most
	for _, x := range []struct {
		high    float64
		settled bool
	}{{0.1, true}, {0.3, false}} {
		e.odds[0] = capability.Constant(0.1, e.years, 1)
		for q := range capability.Quarters {
			e.odds[0][0][q] = capability.Sample{0.1, x.high}
		}
		a, err := e.answer(context.Background(), &choice{plans: []*whole{w}, chance: 1, settled: true}, e.years-1, answer.Setup{})
		if err != nil {
			t.Fatal(err)
		}
		if a.Settled != x.settled || a.Plans[0].Sure() != x.settled {
			t.Errorf("%g of runs may miss: settled %v, kept for sure %v; want %v", x.high, a.Settled, a.Plans[0].Sure(), x.settled)
		}
	}
}

// A plan that is compared with none is judged by a check as by all the runs that check it,
// and by so few of them that the others could not tell otherwise.
func TestCheckLeavesOutWhatCannotContradict(t *testing.T) {
	e := screened(t)
	e.most = capability.Checks
	w := e.wholeOf(path{configs: make([]int, e.years)}) // as it is
	through := e.last[0]
	missed, err := e.check(context.Background(), w, through)
	if err != nil {
		t.Fatal(err)
	}
	n, hits := w.replications(), 0
	for y := range through + 1 {
		hits = max(hits, w.hits(y))
	}
	if n >= capability.Checks || n < capability.Agreed(hits, capability.Checks, e.target.MissShare) {
		t.Errorf("%d runs with %d missed", n, hits)
	}
	if all, err := e.test(context.Background(), w, through); err != nil || yearOf(all) != yearOf(missed) || w.replications() != capability.Checks {
		t.Errorf("by all %d runs year %d is missed, by the check %d (%v)", w.replications(), yearOf(all), yearOf(missed), err)
	}
}
