package expand

import (
	"errors"
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/facilityfile"
)

// Each growth scenario comes up among the replications as often as its weight says,
// within one of any number from the first on, and one looked at alone always.
func TestGrowthsOfReplications(t *testing.T) {
	f := &facilityfile.File{Path: "plant.yaml"}
	weights := map[string]float64{"slow": 0.25, "as expected": 0.5, "fast": 0.25}
	for _, name := range []string{"slow", "as expected", "fast"} {
		f.Planning.Growths = append(f.Planning.Growths, facilityfile.GrowthScenario{Name: name, Weight: weights[name]})
	}
	all, err := growthsOf(f, "")
	if err != nil {
		t.Fatal(err)
	}
	seen := map[int]int{}
	for rep := range 64 {
		seen[all.of(rep)]++
		for g, growth := range f.Planning.Growths {
			if want := growth.Weight * float64(rep+1); math.Abs(float64(seen[g])-want) > 1 {
				t.Errorf("%s: %d of the first %d replications, want about %g", growth.Name, seen[g], rep+1, want)
			}
		}
	}
	fast, err := growthsOf(f, "fast")
	if err != nil || fast.of(0) != 2 || fast.of(5) != 2 || fast.main() != 2 {
		t.Errorf("alone: %+v, %v", fast, err)
	}
	if all.main() != 1 {
		t.Errorf("believed in most is %d", all.main())
	}
	_, err = growthsOf(f, "faster")
	if !errors.As(err, new(*facilityfile.Error)) || !strings.Contains(err.Error(), `it has "slow", "as expected", "fast"`) {
		t.Errorf("error %v", err)
	}
}
