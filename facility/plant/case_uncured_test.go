package plant

import (
	"testing"

	"loamcast/facility/process"
	"loamcast/sim"
)

// A plant that does not cure: what is unloaded goes straight to the screen.
//
//	load k     full at 20k + 0.5 h, unloaded 240 h later, at 20k + 240.5 h
//	screen     free, since a lot takes it an hour and one comes every 20 h: it takes
//	           the lot at once, and the product is stored an hour later
//	on the pad nothing lies longer than that hour: 25 m3 at most, no time of curing
//	           and no room needed for it
//
// With screening first the lot is stored as soon as it is through the screen.
func TestCaseNothingCures(t *testing.T) {
	for _, first := range []bool{false, true} {
		m := paper()
		m.Curing.Time, m.Curing.Longest = 0, 0
		m.Screening.First = first
		rec, d := follow(t, m, caseKey)
		d.on("compost unloaded").at(t, "load unloaded", every(260.5, 20, 5)...)
		stored := d.on("product screened")
		if first {
			stored = d.on("product cured")
		}
		stored.at(t, "product stored", every(261.5, 20, 5)...)
		same(t, "room on the pad for curing", rec.Months[0].Curing.Room, 0)
		same(t, "days cured before the screen", rec.Months[0].Curing.Days, 0)
		near(t, "pad at most", rec.Months[0].Curing.PadPeak, loadVolume, 1e-9)
	}
}

// A plant that does not cure judges its loads on the vessel alone: where vessel and
// curing together must keep 15 °C for 288 h, a load that is due after 240 h stays
// those 48 h longer, and is not left to a pad on which it would lie no time at all.
// With a pad it leaves after 240 h. In this plant nothing heats and nothing cools,
// so that a load keeps its 20 °C.
func TestNothingIsMetOnAPadThatDoesNotCure(t *testing.T) {
	for _, c := range []struct {
		curing sim.Duration
		stay   float64 // h
	}{{5 * sim.Day, 240}, {0, 288}} {
		m := paper()
		m.Curing.Time, m.Curing.Longest = c.curing, 2*c.curing
		kept := process.Criterion{Name: "kept warm", Kind: process.Hold, Where: process.InVesselAndCuring, Temperature: 15, Hours: 288}
		m.Active.Criteria = []process.Criterion{kept}
		m.Pile.Criteria = m.Active.Criteria
		_, d := follow(t, m, caseKey)
		d.on("compost unloaded").at(t, "load unloaded", every(20.5+c.stay, 20, 5)...)
	}
}
