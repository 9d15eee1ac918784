package study_test

import (
	"context"
	"testing"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// The uncertain inputs of a run are drawn, or as in the file, or at the quantiles
// of the case: here that of cake solids, spread evenly by −1 to 1.5 points, is
// 25 %, so that they are 0.375 points below the file's 20 %.
func TestQuantiles(t *testing.T) {
	f, err := facilityfile.Open("../facilityfile/testdata/planning.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 1)
	if err != nil {
		t.Fatal(err)
	}
	quantiles := make([]float64, len(f.Planning.Inputs))
	for i, in := range f.Planning.Inputs {
		quantiles[i] = 0.5
		if in.Key == "solids.cake_solids" {
			quantiles[i] = 0.25
		}
	}
	solids := func(c study.Case, replication int) float64 {
		c.Growth, c.Years = 1, 1
		r, err := s.Simulate(context.Background(), study.Run{Case: &c, Replication: replication})
		if err != nil {
			t.Fatal(err)
		}
		return r.Plant.Feed.CakeSolids[0]
	}
	near := func(got, want float64) bool { return got > want-1e-12 && got < want+1e-12 }
	for _, replication := range []int{0, 7} {
		if got := solids(study.Case{Quantiles: quantiles}, replication); !near(got, 0.2-0.00375) {
			t.Errorf("replication %d: cake solids %g at the quantile, by hand 0.19625", replication, got)
		}
		if got := solids(study.Case{Quantiles: quantiles, Expected: true}, replication); !near(got, 0.2) {
			t.Errorf("replication %d: cake solids %g as in the file, not 0.2", replication, got)
		}
	}
	if a, b := solids(study.Case{}, 0), solids(study.Case{}, 7); a == b {
		t.Errorf("two replications draw the same cake solids, %g", a)
	}
}
