package expand

import (
	"context"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

func screened(t *testing.T) *expansion {
	t.Helper()
	f, err := facilityfile.Open("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	e, err := newExpansion(s, Setup{Replications: 10})
	if err != nil {
		t.Fatal(err)
	}
	if err := e.screen(context.Background()); err != nil {
		t.Fatal(err)
	}
	return e
}

// What single years told wrongly is put right by the runs of whole plans: told that
// the plant lasts as it is, the search finds that it does not, and builds.
func TestWholeRunsCorrectTheWindows(t *testing.T) {
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
	if e.last[0] != right {
		t.Errorf("the plant as it is lasts through year %d; whole runs say %d", right, e.last[0])
	}
}

// Screening errs on the long side: no configuration lasts longer in simulation
// than it was expected to.
func TestEstimatesAreLong(t *testing.T) {
	e := screened(t)
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
// as long as any that only adds to it; of one with other working hours nothing
// follows.
func TestBounds(t *testing.T) {
	k := &lasting{
		lattice: newLattice([]int{2, 1}), years: 10, model: &plant.Model{},
		steps: []facilityfile.Step{{Change: plant.Change{Vessels: 1}}, {Change: plant.Change{Pad: 10}}},
		last:  []int{unknown, unknown, unknown, unknown, unknown, unknown},
	}
	k.learn(0, 3) // as it is
	k.learn(2, 6) // two vessels
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
	k.steps[0].CakeSolids = -0.01 // thinner cake may do harm
	if kept, missed := k.bounds(1); kept != -1 || missed != 10 {
		t.Errorf("thinner cake: kept %d, missed %d", kept, missed)
	}
}
