package plant

import (
	"math"
	"slices"
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

// A load that stays on ends one wait and begins another. In a plant that does not
// cure, vessel and pad together must keep 15 °C for 288 h, and vessels are emptied
// from 08:00 to 16:00 only, on weekdays. Load k is due at 20k + 240.5 h. When people
// come next it is judged, and stays until 20k + 308.5 h, and then until people come
// once more. Both waits are of all its cake, and the causes of all waiting sum to
// what the loads waited.
//
//	load 1   due on Monday the 11th at 20:30, judged at 08:00; due again on
//	         Wednesday at 20:30, unloaded at 08:00: twice 11.5 h
func TestCaseStaysOn(t *testing.T) {
	m := paper()
	m.Curing.Time, m.Curing.Longest = 0, 0
	m.Active.Criteria = []process.Criterion{{Name: "kept warm", Kind: process.Hold, Where: process.InVesselAndCuring, Temperature: 15, Hours: 288}}
	m.Pile.Criteria = m.Active.Criteria
	m.Vessels.Hours = officeHours(t, &m)
	// People come at the first hour from an instant on at which the office is open:
	// the run begins on a Friday.
	comes := func(hour float64) float64 {
		day := math.Floor(hour / 24)
		switch in := hour - 24*day; {
		case in >= 16:
			day, hour = day+1, 24*(day+1)+8
		case in < 8:
			hour = 24*day + 8
		}
		if weekday := math.Mod(day, 7); weekday == 1 || weekday == 2 {
			hour = 24*(day+3-weekday) + 8
		}
		return hour
	}
	var unloaded []float64
	waited := 0.0
	for k := 1.0; 20*k+240.5 < january; k++ {
		due, again := 20*k+240.5, 20*k+0.5+288
		if judged := comes(due); judged < again {
			waited += min(judged, january) - due
		} else {
			again = due // not judged before it has stayed long enough
		}
		if out := comes(again); out < january {
			unloaded = append(unloaded, out)
		}
		waited += max(0, min(comes(again), january)-again)
	}
	if first := unloaded[0]; first != 12*24+24+8 {
		t.Fatalf("load 1 is unloaded at %g h on paper", first)
	}
	rec, d := follow(t, m, caseKey)
	slices.Sort(unloaded)
	d.on("compost unloaded").at(t, "load unloaded", unloaded...)
	near(t, "loads that are due waited, kg·d", rec.Months[0].Release.Waited, loadCake*waited/24, loadCake*30/86400)
}
