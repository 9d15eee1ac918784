package capability

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// shortIn is what is short in one year.
func shortIn(months []plant.Month) Lack {
	target := facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3}
	seen := SeenOf(months, target)
	return Shortage([]*Sums{seen.Sums}, target)
}

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
	if got := shortIn(months); got != (Lack{Waits: plant.NoCuringSpace}) {
		t.Errorf("short of %v, by hand %v", got, plant.NoCuringSpace)
	}
}

// Where nothing is short for which solids wait longer when some of them leave untreated,
// it is room to hold them.
func TestShortOfRoomByHand(t *testing.T) {
	for _, c := range []struct {
		mixing float64 // kg dry × days waited for in the month in which some are diverted
		want   Lack
	}{{110, Lack{Room: true}}, {1000, Lack{Waits: plant.Mixing}}} {
		months := yearOfMonths()
		for i := range months {
			months[i].Waits[plant.Collecting], months[i].Waits[plant.Mixing] = 9000, 100
		}
		months[5].Holding.DivertedDry, months[5].Waits[plant.OffShift], months[5].Waits[plant.Mixing] = 200, 2000, c.mixing
		if got := shortIn(months); got != c.want {
			t.Errorf("%g waited for the mixer: short of %v, by hand %v", c.mixing, got, c.want)
		}
	}
}

// Where loads fail, more than what may leave untreated and more than what finds no room,
// it is compliance that is short, whatever solids wait for; fewer count for nothing.
func TestFailingLoadsByHand(t *testing.T) {
	for _, c := range []struct {
		failed, diverted float64 // parts of what comes in
		failing          bool
	}{{0.03, 0, true}, {0.03, 0.02, true}, {0.03, 0.04, false}, {0.009, 0, false}} {
		months := yearOfMonths()
		for i := range months {
			months[i].Waits[plant.NoVessel] = 3000
			months[i].Release.FailedCakeDry = c.failed * months[i].Feed.Dry
			months[i].Holding.DivertedDry = c.diverted * months[i].Feed.Dry
		}
		if got := shortIn(months); got.Failing != c.failing {
			t.Errorf("%.3f failed, %.3f diverted: short of %v", c.failed, c.diverted, got)
		}
	}
}
