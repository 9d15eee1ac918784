package capability

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// What is short is what solids wait longer for in the months that go wrong, not
// what they wait for always, nor for a load to come together.
func TestShortByHand(t *testing.T) {
	months := yearOfMonths()
	for i := range months {
		months[i].Waits[plant.NoVessel] = 3000
	}
	months[5].Holding.DivertedDry = 200
	months[5].Waits[plant.NoCuringSpace] = 2000
	months[5].Waits[plant.Collecting] = 9000
	if got := Shortage([][]plant.Month{months}, facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3}); got != plant.NoCuringSpace {
		t.Errorf("short of %v, by hand %v", got, plant.NoCuringSpace)
	}
}
