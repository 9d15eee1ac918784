package options

import (
	"testing"

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
	c := &comparison{file: f, runs: [][][]outcome{{run(true), run(false), run(true), run(true)}}}
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
