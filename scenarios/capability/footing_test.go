package capability

import (
	"context"
	"slices"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// wetLoads is a plant in some of whose runs loads do not comply, however little comes.
func wetLoads(t *testing.T) *study.Study {
	t.Helper()
	f, err := facilityfile.Open("../vesselplan/testdata/wet-loads.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Where some runs miss the target whatever comes in, more vessels miss as often, drier cake
// does not, and what more vessels carry with drier cake is told beside the plant with drier
// cake alone. Two kinds of changes of which neither helps by itself are held to be no better
// than none, at no further runs.
func TestStatesWhereSomeRunsMissWhateverComesIn(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates some two thousand years of wet loads; the round without -short has it")
	}
	ctx := context.Background()
	s := wetLoads(t)
	st, err := StatesOf(ctx, s, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	with := func(changes ...plant.Change) *Capability {
		found, err := st.With(ctx, changes)
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	background := func(c *Capability) float64 { return c.Background()[0] }
	limit := s.File.Planning.Target.MissShare
	vessels, drier, pad := plant.Change{Vessels: 4}, plant.Change{CakeSolids: 0.025}, plant.Change{Pad: 200}
	if asIs, more := background(st.Main()), background(with(vessels)); asIs <= limit || more <= limit {
		t.Errorf("%.3f of the years miss whatever comes in, %.3f with more vessels; of whole runs 0.12", asIs, more)
	}
	// What is asked for beside what rests on it is found once.
	if err := st.Ahead(ctx, [][]plant.Change{{drier, vessels}, {drier}}); err != nil {
		t.Fatal(err)
	}
	alone := with(drier)
	if background(alone) != 0 {
		t.Errorf("with drier cake %.3f miss whatever comes in", background(alone))
	}
	both := with(drier, vessels)
	if rests := st.rests[describe([]plant.Change{drier, vessels}).key()]; rests == nil || rests.Capability != alone {
		t.Errorf("more vessels and drier cake were found beside %+v", rests)
	}
	if gain := both.Curve.Load(limit) / alone.Curve.Load(limit); gain < 1.2 || gain > 10.0/6 {
		t.Errorf("10 vessels carry %.2f times as much as 6 with drier cake", gain)
	}
	before := st.Simulated()
	with(pad)
	by := st.Simulated() - before
	before = st.Simulated()
	if none := with(vessels, pad); background(none) != background(st.Main()) || by == 0 || st.Simulated() != before {
		t.Errorf("more vessels and a larger pad: %.3f miss whatever comes in, as it is %.3f; %d years for both, %d for the pad alone",
			background(none), background(st.Main()), st.Simulated()-before, by)
	}
}

// Changes beside the file's own are told apart by what they do: vessels of a class are one
// kind however they are bought.
func TestKinds(t *testing.T) {
	own := plant.Change{Name: "own", Pad: 100}
	one, two, drier := plant.Change{Name: "a", Vessels: 1}, plant.Change{Name: "b", Vessels: 2}, plant.Change{CakeSolids: 0.02}
	for _, c := range []struct {
		changes []plant.Change
		want    []int // the size of each kind
		all     bool
	}{
		{[]plant.Change{own}, nil, true},
		{nil, nil, false},
		{[]plant.Change{own, one, drier, two}, []int{2, 1}, true},
		{[]plant.Change{one, {Class: 1, Vessels: 1}, own}, []int{1, 1}, true},
		{[]plant.Change{own, own}, []int{1}, true},
	} {
		groups, all := kinds([]plant.Change{own}, c.changes)
		var sizes []int
		for _, g := range groups {
			sizes = append(sizes, len(g))
		}
		if !slices.Equal(sizes, c.want) || all != c.all {
			t.Errorf("%+v: %v, all %t; want %v, %t", c.changes, sizes, all, c.want, c.all)
		}
	}
}
