package capability

import (
	"errors"
	"math"
	"slices"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/threshold"
)

// hand is a plant without noise whose vessels carry 100 kg dry a day each, see
// the hand cases of when.
func hand(t *testing.T) *study.Study {
	t.Helper()
	f, err := facilityfile.Open("../vesselplan/testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// The capability of a constant plant is its arithmetic: 8 vessels carry 800 kg a
// day, and a year may lose 1 % of what comes: 800 ÷ 0.99 is 808.1 kg a day. Ten
// vessels carry ten eighths as much. That is found to within 1 %, by which the
// holding and the loads under way at the ends of a year blur it, and next to all
// years are on one side or the other.
func TestConstantPlantByHand(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	s := hand(t)
	found, err := Find(t.Context(), s, study.Case{}, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	if half := found.Curve.Load(0.5); math.Abs(half/808.1-1) > 0.01 {
		t.Errorf("8 vessels carry %.1f kg/day, by hand 808.1", half)
	}
	if found.Curve.Spread() > 0.01 {
		t.Errorf("a plant without noise misses years by a spread of %.3f", found.Curve.Spread())
	}
	more, err := found.Beside(t.Context(), s, study.Case{Vessels: 2}, 1.25)
	if err != nil {
		t.Fatal(err)
	}
	if times := more.Curve.Load(0.5) / found.Curve.Load(0.5); math.Abs(times/1.25-1) > 0.01 {
		t.Errorf("10 vessels carry %.3f times as much as 8, by hand 1.25", times)
	}
	unknown, err := found.Beside(t.Context(), s, study.Case{Vessels: 2}, 0)
	if err != nil {
		t.Fatal(err)
	}
	if times := unknown.Curve.Load(0.5) / found.Curve.Load(0.5); math.Abs(times/1.25-1) > 0.01 {
		t.Errorf("10 vessels of which nothing is known before carry %.3f times as much as 8, by hand 1.25", times)
	}
	if len(more.Likely) != len(found.Likely) || more.Likely[0] != more.Curve && more.Likely[0].Load(0.5) != more.Curve.Load(0.5) {
		t.Error("the first of the likely curves is not the curve")
	}
}

// Where the guess of how much more is carried is far off, it is found all the same:
// with a curing pad that only just does for 8 vessels, more of them carry no more.
func TestBesideAWrongGuess(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	s := hand(t)
	s.File.Model.Curing.Capacity = 330
	s, err := study.New(s.File, 0)
	if err != nil {
		t.Fatal(err)
	}
	found, err := Find(t.Context(), s, study.Case{}, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	more, err := found.Beside(t.Context(), s, study.Case{Vessels: 4}, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	if more.Curve == nil {
		t.Fatal("nothing was found")
	}
	if times := more.Curve.Load(0.5) / found.Curve.Load(0.5); times > 1.1 {
		t.Errorf("12 vessels carry %.2f times as much as 8, though the pad does not", times)
	}
}

// What makes years lean on each other, or on dates, is told.
func TestSteady(t *testing.T) {
	base := func() *facilityfile.File {
		f, err := facilityfile.Open("../facilityfile/testdata/planning.yaml")
		if err != nil {
			t.Fatal(err)
		}
		f.Model.Changes, f.Model.Feed.Pulses, f.Planning.Correlations = nil, nil, nil
		return f
	}
	place := func(f *facilityfile.File, key string) int {
		at := slices.IndexFunc(f.Planning.Inputs, func(u facilityfile.Uncertain) bool { return u.Key == key })
		if at < 0 {
			t.Fatalf("%s is not uncertain", key)
		}
		return at
	}
	correlate := func(a, b string) func(*facilityfile.File) {
		return func(f *facilityfile.File) {
			f.Planning.Correlations = []facilityfile.Correlation{{A: place(f, a), B: place(f, b), Rank: 0.5}}
		}
	}
	for _, c := range []struct {
		name  string
		alter func(*facilityfile.File)
		want  Steadiness // but for the words
	}{
		{"as it is", func(*facilityfile.File) {}, Steadiness{}},
		{"a change", func(f *facilityfile.File) {
			f.Model.Changes = []plant.Change{{Vessels: 1, Date: f.Model.Start.AddYears(2), Lead: calendar.Span{Months: 12}}}
		}, Steadiness{}},
		{"a change on a sign", func(f *facilityfile.File) {
			f.Model.Changes = []plant.Change{{Vessels: 1, Trigger: plant.Trigger{Held: 0.8}}}
		}, Steadiness{Why: "lean", Leaning: true}},
		{"a change on production", func(f *facilityfile.File) {
			f.Model.Changes = []plant.Change{{Vessels: 1, Trigger: plant.Trigger{Production: 800}}}
		}, Steadiness{Why: "lean", Leaning: true}},
		{"a pulse", func(f *facilityfile.File) { f.Model.Feed.Pulses = []plant.Pulse{{}} }, Steadiness{Why: "stand"}},
		{"sources that grow alike", func(f *facilityfile.File) { f.Model.Feed.Sources = make([]plant.Source, 2); growing(f, 0.02, 0.02) }, Steadiness{}},
		{"sources that do not", func(f *facilityfile.File) { f.Model.Feed.Sources = make([]plant.Source, 2); growing(f, 0.02, 0.03) }, Steadiness{Why: "stand"}},
		{"a lake", func(f *facilityfile.File) { f.Model.Holding.Capacity = 100 * f.Model.Feed.Base }, Steadiness{Why: "lean", Leaning: true}},
		{"growth with solids", correlate("solids.growth", "solids.cake_solids"), Steadiness{Why: "stand"}},
		{"growth with money", correlate("solids.growth", "money.tipping"), Steadiness{}},
	} {
		f := base()
		c.alter(f)
		got := Steady(f)
		if (got.Why == "") != (c.want.Why == "") {
			t.Errorf("%s: because %q", c.name, got.Why)
		}
		got.Why, c.want.Why = "", ""
		if got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// How many times as much variants carry, by hand, on a plant without noise: nothing else
// for the plant itself, ten and six eighths for 10 and 6 vessels although they are expected to
// carry much less or more, within half of a hundredth.
func TestTimesByHand(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	s := hand(t)
	found, err := Find(t.Context(), s, study.Case{}, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	want := []float64{1, 1, 1.25, 0.75}
	times, years, err := found.Times(t.Context(), s, study.Case{}, []Variant{
		{Case: study.Case{}, Expected: 1, From: 3}, {Case: study.Case{}, Expected: 1.004},
		{Case: study.Case{Vessels: 2}, Expected: 1.15}, {Case: study.Case{Vessels: -2}, Expected: 0.8},
	}, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	for i := range want {
		if math.Abs(times[i]/want[i]-1) > 0.005 {
			t.Errorf("variant %d carries %.4f times as much, by hand %g", i, times[i], want[i])
		}
	}
	if times[0] != 1 {
		t.Errorf("the plant itself carries %g times as much as itself", times[0])
	}
	if least := 6 * 9; years < least || years%9 != 0 {
		t.Errorf("%d years simulated, at least %d ramps of 9", years, least/9)
	}
	found.Curve = found.Curve.Scaled(3) // what the plant never carries
	if _, _, err := found.Times(t.Context(), s, study.Case{}, []Variant{{Case: study.Case{}, Expected: 1}}, 1, nil); !errors.Is(err, ErrApart) {
		t.Errorf("%v, where the plant itself is nowhere near what it is said to carry", err)
	}
}

// A year strains a plant as far as it comes to what the target allows, by hand: of
// 100 kg a day that come, 0.5 % left untreated is half of 1 %; three days' wait for 3 allowed is
// all of it; the more of both counts, and no more than the most.
func TestStrainByHand(t *testing.T) {
	target := facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3}
	year := func(untreated, waits float64) []plant.Month {
		var m plant.Month
		m.Feed.Dry, m.Holding.DivertedDry, m.Holding.Delayed = 1000, 1000*untreated, 1000*waits
		return []plant.Month{m}
	}
	for _, c := range []struct {
		name             string
		untreated, waits float64
		target           facilityfile.Target
		want             float64
	}{
		{"nothing", 0, 0, target, 0},
		{"half of what may leave", 0.005, 0.9, target, 0.5},
		{"all of the wait", 0.005, 3, target, 1},
		{"far beyond", 0.5, 0, target, 3},
		{"nothing may leave", 0.0001, 0, facilityfile.Target{DelayLimit: 3}, 3},
		{"nothing may leave, nor does", 0, 1.5, facilityfile.Target{DelayLimit: 3}, 0.5},
	} {
		seen := SeenOf(year(c.untreated, c.waits), c.target)
		if got := seen.strain(c.target); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %g, by hand %g", c.name, got, c.want)
		}
	}
}

// Production with the uncertain inputs at quantiles, by hand: at the median of a first
// year of 500 to 700 kg/day, evenly, 600, at the quarter 550, and 8 % of it more each year;
// what rises by 8 % in a year is as heavy as (√0.04 − √0.01)² more, 1 %
// (see TestDemand), and no less than its mean.
func TestDemandAtByHand(t *testing.T) {
	f, err := facilityfile.Open("../drivers/testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	solids := slices.IndexFunc(f.Planning.Inputs, func(u facilityfile.Uncertain) bool { return u.Key == "solids.dry_per_day" })
	quantiles := slices.Repeat([]float64{0.5}, len(f.Planning.Inputs))
	for quantile, base := range map[float64]float64{0.5: 600, 0.25: 550} {
		quantiles[solids] = quantile
		for year, y := range DemandAt(f, 0, quantiles) {
			want := base * (1 + 0.08*float64(year))
			if math.Abs(y.Mean-want) > 1e-6 || len(y.Loads) != 1 || y.Loads[0] < y.Mean-1e-9 || y.Loads[0] > 1.02*y.Mean {
				t.Errorf("quantile %g, year %d: %+v, by hand %g", quantile, year, y, want)
			}
		}
	}
	if !MovesProduction(f, solids) {
		t.Error("solids are said not to move production")
	}
	if i := slices.IndexFunc(f.Planning.Inputs, func(u facilityfile.Uncertain) bool { return u.Key == "vessels.turnaround" }); MovesProduction(f, i) {
		t.Error("the turnaround of vessels is said to move production")
	}
}

// The production of a year over all draws has the mean of what was drawn, its
// levels rise, and the share of years that miss is that of the curve where nothing
// is uncertain.
func TestDemand(t *testing.T) {
	f := hand(t).File
	d := DemandOf(f, 0)
	if len(d) != f.Model.Years {
		t.Fatalf("%d years", len(d))
	}
	for year := range d {
		if want := 620 + 40*float64(year); math.Abs(d.Mean(year)-want) > 0.1 {
			t.Errorf("year %d: %.2f kg/day, by hand %g", year, d.Mean(year), want)
		}
		if !slices.IsSorted(d[year].Loads) {
			t.Errorf("year %d: levels %v", year, d[year].Loads)
		}
	}
	var trials [][]threshold.Trial
	for _, load := range []float64{700, 780, 800, 820, 900} {
		trials = append(trials, []threshold.Trial{{Load: load, Failed: load > 790}})
	}
	c, err := threshold.Fit(trials)
	if err != nil {
		t.Fatal(err)
	}
	// 780 kg/day that rise by 40 in the year, 5.1 %: as heavy as (√(0.051/2) − √0.01)²
	// more, 2.8 kg/day, by the continuous form of the formula of heavy.
	if got := d[4].Loads; len(got) != 1 || math.Abs(got[0]-782.8) > 0.3 {
		t.Errorf("year 4 is as heavy as %v kg/day, by hand 782.8", got)
	}
	if got, want := d.Share(c, 4), c.Share(d[4].Loads[0]); got != want {
		t.Errorf("a share of %g, by the curve %g", got, want)
	}
	for _, path := range Paths(f, 0, 3) {
		if len(path) != f.Model.Years*calendar.MonthsPerYear || math.Abs(path[0]-601.7) > 0.1 {
			t.Errorf("a path of %d months begins with %.2f kg/day, by hand 601.7", len(path), path[0])
		}
	}
}

// The share of a year that misses is the mean over the levels that its production
// may have, which is not that at the middle one: of 600, 700 and 900 under a curve at
// 800 with a spread of a twentieth, a third.
func TestShareOverLevels(t *testing.T) {
	c := &threshold.Curve{Mean: math.Log(800), Within: 0.05}
	d := Demand{newYear(0, []float64{600, 700, 900})}
	want := (c.Share(600) + c.Share(700) + c.Share(900)) / 3
	if got := d.Share(c, 0); math.Abs(got-want) > 1e-12 || got < 0.3 {
		t.Errorf("a share of %g, by hand %g", got, want)
	}
}

// On a ramp the changes of the file are in force from the first day, whenever they
// are dated: a plant of 6 vessels with 2 more in year 9 carries what 8 do.
func TestChangesAreInForce(t *testing.T) {
	s := hand(t)
	m := &s.File.Model
	m.Changes = []plant.Change{{Name: "two more", Vessels: 2, Date: m.Start.AddYears(9)}}
	s, err := study.New(s.File, 0)
	if err != nil {
		t.Fatal(err)
	}
	f := finder{study: s}
	for vessels, want := range map[int]bool{-2: false, -3: true} { // 8 and 7 of them
		runs, err := f.try(t.Context(), study.Case{Vessels: vessels}, ramp{740, 750, 2}, 0, 1)
		if err != nil {
			t.Fatal(err)
		}
		if got := runs[0][1].Missed; got != want {
			t.Errorf("%d vessels and the 2 of the change miss 750 kg/day: %t", 8+vessels, got)
		}
	}
}

// growing gives each source of cake a growth.
func growing(f *facilityfile.File, rates ...float64) {
	for i, rate := range rates {
		f.Model.Feed.Sources[i].Growth = plant.Compound{Rate: rate}
	}
}
