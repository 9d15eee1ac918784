package plant

import (
	"slices"
	"testing"
	"time"

	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// The first load of all these cases is begun at 0 h, gets its batches at 4, 8,
// 12, 16 and 20 h, and is full when the fifth is discharged, at 20.5 h. So load
// k is full at 20k + 0.5 h as long as nothing is short.

// Vessel-limited. Four vessels; a load stays 240 h, its vessel is turned round in
// 48 h.
//
//	load 1 … 4    full at 20.5, 40.5, 60.5, 80.5 h, unloaded 240 h later
//	load 5 … 8    a vessel is back 288 h after it was full: begun at 308.5, 328.5,
//	              348.5 and 368.5 h. The cake is there, so the batches follow each
//	              other: full 2.5 h later, at 311, 331, 351 and 371 h
//	load 9 … 12   likewise 290.5 h after: begun at 599, 619, 639, 659 h
//
// Vessels stand empty for no second, and the next one is back at 889.5 h. The
// holding of 8,000 kg, empty after the batch of 80 h, is full at 160 h. Four loads
// take 2,000 kg each in the 20 h in which as much runs in.
//
//	mixed in January   12 · 2,000 = 24,000 kg
//	diverted           160 to 308.5 h: 14,850 kg; from 388.5 h, when the 20 h of
//	                   load 8 are over, to 599 h: 21,050 kg; from 679 to 744 h:
//	                   6,500 kg; 42,400 kg in all, which with 24,000 and the
//	                   8,000 held are 74,400 kg
//	waited for what    for the mixer, half an hour after each of 20 batches with
//	is short           0 to 50 kg held: 20 · 12.5 = 250 kg·h. From 80.5 to 84 h no
//	                   vessel could be begun if there were one, as that takes the
//	                   400 kg of a batch: the cake collects. From 84 h on it waits
//	                   for vessels, or for the mixer again: 400 to 8,000 kg by
//	                   160 h, 76 h · 4,200 = 319,200;
//	                   8,000 kg for 148.5 h, 1,188,000; in each of the 20 h of loads 5 to 8
//	                   and 9 to 12, 7,600 to 7,650 kg for half an hour, four
//	                   times 350 kg less, 17,312.5, and 6,250 to 8,000 in 17.5 h,
//	                   124,687.5: 8 · 142,000 = 1,136,000; 8,000 kg for 210.5 and
//	                   65 h, 2,204,000: in all 4,847,450 kg·h, which
//	                   is 2.7 days for each of 74,400 kg
func TestCaseVesselLimited(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 4, 48*sim.Hour
	rec, d := follow(t, m, caseKey)
	begins := d.loadsBegun()
	begins.at(t, "first batch of load", 4, 24, 44, 64, 308.5, 328.5, 348.5, 368.5, 599, 619, 639, 659, 889.5)
	d.on("mix loaded").load(5).at(t, "batch of load 5 discharged", every(309, 0.5, 5)...)
	d.on("compost unloaded").at(t, "load unloaded", 260.5, 280.5, 300.5, 320.5, 551, 571, 591, 611)
	jan := rec.Months[0]
	same(t, "loads", jan.Loads.Filled, 12)
	same(t, "mixed", jan.Mixing.CakeDry, 12*loadCake)
	near(t, "diverted", jan.Holding.DivertedDry, 42400, 0.1)
	near(t, "waited for what is short", jan.Holding.Delayed, 4847450.0/24, 0.01)
	near(t, "cake delay", CakeDelay(rec.Months[:1]), 4847450.0/24/74400, 1e-6)
	same(t, "vessels in use at most", jan.Vessels.Peak, 4)
	mostly(t, rec, 1, NoVessel)
}

// Place-limited. Two aerated places, and one place at the mixer, where a full
// vessel stands in the way of the next. Moving takes no time.
//
//	load 1, 2   on the places at 20.5 and 40.5 h, off them at 260.5 and 280.5 h
//	load 3      full at 60.5 h, on a place at 260.5 h, off it at 500.5 h
//	load 4      begun at 260.5 h with all its cake held, full at 263 h, on a place
//	            at 280.5 h, off it at 520.5 h
//	load 5, 6   begun at 280.5 and 500.5 h, on a place at 500.5 and 520.5 h
//	load 7, 8   begun at 520.5 and 740.5 h
//
// Load 8 has its last batch at 742.5 h. The holding, empty after the batch of
// 60 h, is full at 140 h. A load takes 2,000 kg, which runs in in the 20 h from
// its begin; then the holding is full again.
//
//	diverted   140 to 260.5, 300.5 to 500.5, 540.5 to 740.5 h: 520.5 h, 52,050 kg
//	held       8,000 − 2,000 + 3.5 · 100 = 6,350 kg at the end of January
//	mixed      8 · 2,000 = 16,000 kg, which make the 74,400 kg complete
func TestCasePlaceLimited(t *testing.T) {
	m := paper()
	m.Yard.Places, m.Yard.LoadingPlaces = 2, 1
	rec, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 24, 44, 260.5, 280.5, 500.5, 520.5, 740.5)
	d.on("compost unloaded").at(t, "load unloaded", 260.5, 280.5, 500.5, 520.5, 740.5)
	jan := rec.Months[0]
	same(t, "mixed", jan.Mixing.CakeDry, 8*loadCake)
	near(t, "diverted", jan.Holding.DivertedDry, 52050, 0.1)
	mostly(t, rec, 1, NoPlace)
}

// Truck-limited. One truck, which needs 25 h for a move (no truck is that slow;
// it keeps the arithmetic short), while a load is made every 20 h. One place at
// the mixer. The truck first takes off what is due, then fetches what is full,
// then brings back what is empty, for which it has no time here.
//
//	load k       fetched at 20.5 + 25·(k − 1) h, on its place 25 h later, due at
//	             285.5 + 25·(k − 1) h
//	load k + 1   begun when load k is fetched; from load 3 on all its first batch
//	             needs is there: at 20.5 + 25·(k − 1) h
//	load 1       is due at 285.5 h, when the truck is carrying load 11, until
//	             295.5 h. From there each load that is due is taken off as the one
//	             before arrives: load k is on the tip floor at 320.5 + 25·(k − 1) h
//	load 12      is in the way from 273 h on, until load 11 is on the tip floor and
//	             nothing more is due, at 570.5 h
//	load k ≥ 13  begun at 570.5 + 25·(k − 13) h
//
// Held: load 12 gets batch 60, 24,000 kg in all, at 272.5 h; 27,250 kg have run
// in, so that 3,250 kg are left and the 8,000 kg are full at 320 h. From 570.5 h a
// load takes 2,000 kg and the 20 h after its begin bring them back, so that each
// 25 h divert 500 kg. Load 19 is begun at 720.5 h.
//
//	diverted   320 to 570.5 h: 25,050 kg; 6 · 500 kg; 740.5 to 744 h: 350 kg
//	mixed      19 · 2,000 = 38,000 kg; with 28,400 and 8,000 they are 74,400 kg
func TestCaseTruckLimited(t *testing.T) {
	m := paper()
	m.Yard = Yard{Trucks: Crew{Count: 1}, Move: 25 * sim.Hour, LoadingPlaces: 1}
	rec, d := follow(t, m, caseKey)
	begins := d.loadsBegun()
	begins.at(t, "first batch of load", 4, 24)
	begins[2:].at(t, "first batch of load 3 on", every(45.5, 25, 10)...)
	begins[12:].at(t, "first batch of load 13 on", every(570.5, 25, 7)...)
	d.on("compost unloaded").at(t, "load on the tip floor", every(320.5, 25, 11)...)
	jan := rec.Months[0]
	// Fetched by the end of January are loads 1 to 11 and 12 to 18; 11 are taken
	// off. The last move, begun at 720.5 h, goes on.
	same(t, "moves", jan.Vessels.Moves, 18+11)
	near(t, "truck hours", jan.Use[Trucks].Busy, january-20.5, 2.0/3600)
	same(t, "mixed", jan.Mixing.CakeDry, 19*loadCake)
	near(t, "diverted", jan.Holding.DivertedDry, 28400, 0.1)
	mostly(t, rec, 1, NoTruck)
}

// Early release. Four vessels, turned round in 12 h, aimed at 240 h but at least
// 120 h; and a criterion: 15 °C in a row, which loads of 20 °C meet, for 72 h or
// for 144 h. A load may leave at the later age, A.
//
// Loads 1 to 4 are full at 20.5, 40.5, 60.5 and 80.5 h; then a vessel is missing,
// and no other is about to be empty. Load 1 leaves at 20.5 + A, its vessel is back
// 12 h later, and as the cake is held, load 5 is full 2.5 h after that. Only then
// is a vessel missing again, and load 2 is A old 20 h after load 1 was, which is
// later: it leaves at 40.5 + A. So do all: load k + 4 is full at A + 14.5 h after
// load k, and leaves A after it is full.
//
//	A = 120 h   left at 140.5, 160.5, 180.5, 200.5; full at 155, 175, 195, 215;
//	            left at 275, 295, 315, 335 h
//	A = 144 h   left at 164.5, 184.5, 204.5, 224.5; full at 179, 199, 219, 239;
//	            left at 323, 343, 363, 383 h
func TestCaseEarlyRelease(t *testing.T) {
	for _, c := range []struct {
		governs  string
		criteria float64 // h
		left     []float64
	}{
		{"least residence", 72, []float64{140.5, 160.5, 180.5, 200.5, 275, 295, 315, 335}},
		{"criterion", 144, []float64{164.5, 184.5, 204.5, 224.5, 323, 343, 363, 383}},
	} {
		t.Run(c.governs, func(t *testing.T) {
			m := paper()
			m.Vessels.Installed, m.Vessels.Turnaround = 4, 12*sim.Hour
			m.Vessels.Early = true
			m.Active.Criteria = []process.Criterion{{Name: "warm", Kind: process.Hold, Temperature: 15, Hours: c.criteria}}
			rec, d := follow(t, m, caseKey)
			d.on("compost unloaded").at(t, "load unloaded", c.left...)
			d.loadsBegun()[4:].at(t, "first batch of load 5 on", every(c.left[0]+12, 20, 4)...)
			jan := rec.Months[0]
			same(t, "released early", jan.Release.Early, jan.Release.Loads)
			mostly(t, rec, 1, NoVessel)
		})
	}
}

// Vessel added on a date. One vessel, turned round in 24 h; a second is decided on
// 8 January and takes two days: it is there at midnight of 10 January, 216 h.
//
//	load 1   full at 20.5 h, unloaded at 260.5 h, its vessel back at 284.5 h
//	load 2   begun at 216 h in the new vessel; the cake is held: its batches are
//	         at 216, 216.5 … 218 h, it is full at 218.5 and unloaded at 458.5 h
//	load 3   begun at 284.5 h, full at 287 h, unloaded at 527 h
//	load 4   begun at 482.5 h, in the second vessel again
//	load 5   begun at 551 h
func TestCaseVesselAdded(t *testing.T) {
	m := paper()
	m.Vessels.Installed = 1
	m.Changes = []Change{{Name: "second vessel", Date: calendar.Date{Year: 2027, Month: 1, Day: 8}, Lead: calendar.Span{Days: 2}, Vessels: 1}}
	rec, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 216, 284.5, 482.5, 551)
	d.on("cake mixed").load(2).at(t, "batch of load 2", every(216, 0.5, 5)...)
	d.on("compost unloaded").at(t, "load unloaded", 260.5, 458.5, 527)
	if at := d.on("cake mixed").load(2)[0].At; at != sim.Time(9*sim.Day) {
		t.Errorf("load 2 is begun at second %d, the new vessel is there at %d", at, sim.Time(9*sim.Day))
	}
	same(t, "vessels in use at most", rec.Months[0].Vessels.Peak, 2)
	same(t, "vessels", rec.Months[0].Vessels.Installed, 2)
	mostly(t, rec, 1, NoVessel)
}

// Vessel added on a sign, with a lead time of a month of the calendar. One vessel;
// half the holding is full for two days on some day of January, and the vessel is
// there, and loaded with cake that is held, at the midnight that begins the same
// day of February, 31 days later.
func TestCaseVesselAddedOnASign(t *testing.T) {
	m := paper()
	m.Vessels.Installed = 1
	m.Changes = []Change{{Name: "second vessel", Trigger: Trigger{Held: 0.5, For: 2 * sim.Day}, Lead: calendar.Span{Months: 1}, Vessels: 1}}
	rec, d := follow(t, m, caseKey)
	if len(rec.Triggered) != 1 || rec.Triggered[0].Decided.Month != time.January {
		t.Fatalf("decided: %+v", rec.Triggered)
	}
	decided := rec.Triggered[0].Decided
	there := calendar.Date{Year: decided.Year, Month: time.February, Day: decided.Day}
	want := sim.Time(calendar.Clock{Start: m.Start}.SecondOf(there))
	if !slices.ContainsFunc(d.on("cake mixed"), func(e Movement) bool { return e.At == want }) {
		t.Errorf("decided on %v, no load is begun at the beginning of %v", decided, there)
	}
	same(t, "vessels in use in January", rec.Months[0].Vessels.Peak, 1)
	same(t, "vessels in use in February", rec.Months[1].Vessels.Peak, 2)
}

// Maintenance. One vessel, which is due for five days of it every 30 days, the first time
// 720 h after the start. The cake is there, so a load is full 2.5 h after it is begun, stays
// 240 h, and the vessel is back after 24 h: 266.5 h after it was begun, the first time at
// 284.5 h.
//
//	load 2, 3   begun as the vessel is back, at 284.5 and 551 h
//	load 4      back at 817.5 h the vessel is due: begun 120 h later, at 937.5 h, and due
//	            again at 1537.5 h
//	load 5, 6   at 1204 and 1470.5 h
//	load 7      back at 1737 h it is due: begun at 1857 h
func TestCaseVesselMaintenance(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Service = 1, Maintenance{Every: 30 * sim.Day, Takes: 5 * sim.Day}
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 284.5, 551, 937.5, 1204, 1470.5, 1857)
}
