package drivers

import (
	"testing"

	"loamcast/scenarios/facilityfile"
)

// A quantile picks a growth scenario by the weights of the file, in the order of what
// they bring: by hand, of weights 0.2, 0.5 and 0.3, the first below 0.2, the second
// below 0.7, else the third.
func TestScenariosByWeight(t *testing.T) {
	p := &facilityfile.Planning{}
	for _, weight := range []float64{0.3, 0.2, 0.5} {
		p.Growths = append(p.Growths, facilityfile.GrowthScenario{Weight: weight})
	}
	in := inputs{planning: p, growths: []int{1, 2, 0}}
	for quantile, want := range map[float64]int{0.01: 1, 0.19: 1, 0.21: 2, 0.35: 2, 0.69: 2, 0.71: 0, 0.99: 0} {
		if got := in.scenario(quantile); got != want {
			t.Errorf("quantile %g: scenario %d, want %d", quantile, got, want)
		}
	}
}

// Prices move what the plant costs, and neither its vessels nor its chips.
func TestPricesMoveCostsAlone(t *testing.T) {
	f := &facilityfile.File{}
	for _, k := range facilityfile.Keys() {
		if k.Uncertain != nil {
			f.Planning.Inputs = append(f.Planning.Inputs, facilityfile.Uncertain{Key: k.Path})
		}
	}
	all, prices := len(f.Planning.Inputs), 0
	for _, u := range f.Planning.Inputs {
		if isPrice(u.Key) {
			prices++
		}
	}
	if prices == 0 || prices == all {
		t.Fatalf("%d of %d uncertain inputs are prices", prices, all)
	}
	for o, want := range map[Output]int{VesselYear: all - prices, ChipsBought: all - prices, PresentWorth: all} {
		if got := len(newInputs(f, o).moved); got != want {
			t.Errorf("%v: %d inputs are moved, want %d", o, got, want)
		}
	}
}

// What moves the answer just as much as chance alone is not above it.
func TestAboveLuckIsNotAtLuck(t *testing.T) {
	of := func(size float64) (d Driver) {
		d.Effect.MuStar.Estimate = size
		return d
	}
	a := &Answer{Noise: of(2), Drivers: []Driver{of(3), of(2), of(1)}}
	if got := a.AboveNoise(); got != 1 {
		t.Errorf("%d are above chance, want 1", got)
	}
}
