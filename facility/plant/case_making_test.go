package plant

import (
	"testing"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/random"
)

// Mixer-limited. Cake runs in at 300 kg/h and a batch takes 2 h, so that the
// mixer uses 400/2 = 200 kg/h.
//
//	first batch       400/300 = 4/3 h
//	batch k = 0, 1 …  4/3 + 2k h, one after the other
//	held before it    400 + (600 − 400)·k kg: 5,000 kg, the capacity, at k = 23
//
// From then on each 2 h bring 600 kg into a room of 400 kg: 200 kg are diverted.
//
//	batches in January   (744 − 4/3)/2 = 371.3: k = 0 … 371, 372 batches
//	mixed                372 · 400 = 148,800 kg
//	loads                371 batches are discharged: 74 loads of five
//	held at the end      4,600 kg after the last at 743 1/3 h, and 2/3 h: 4,800 kg
//	diverted             (371 − 23) · 200 = 69,600 kg; and 744 · 300 = 223,200 kg
//	                     came in, which is 148,800 + 4,800 + 69,600
//
// The first batch, and so each, may be a second late: 300/3,600 = 0.083 kg.
func TestCaseMixerLimited(t *testing.T) {
	m := paper()
	m.Feed.Base = 24 * 300
	m.Mixer.BatchTime = 2 * sim.Hour
	m.Holding.Capacity = 5000
	rec, d := follow(t, m, caseKey)
	d.on("cake mixed").at(t, "batch", every(4.0/3, 2, 372)...)
	d.on("mix loaded").at(t, "discharge", every(4.0/3+2, 2, 371)...)
	jan := rec.Months[0]
	same(t, "batches", jan.Mixing.Batches, 371)
	same(t, "loads", jan.Loads.Filled, 74)
	same(t, "fed", jan.Feed.Dry, 223200)
	same(t, "mixed", jan.Mixing.CakeDry, 148800)
	near(t, "diverted", jan.Holding.DivertedDry, 69600, 0.1)
	d.on("cake diverted").before(4.0/3+2*23).count(t, "diverted before the holding is full", 0)
	mostly(t, rec, 1, Mixing)
}

// Chips out. The store holds 100 m3, 25 batches of 4 m3, and 4 m3 go every 4 h.
// At 21 m3 or less it orders the trucks of 36 m3 that 100 m3 have room for, and
// they come 10 days later.
//
//	ordered     after batch 20, at 80 h, with 20 m3 left: 80/36 = 2 trucks, 72 m3
//	chips gone  after batch 25, at 100 h; batch 26 has its cake at 104 h
//	delivered   80 + 240 = 320 h: 72/4 = 18 batches, every half hour, as the
//	            holding is full: 320, 320.5 … 328.5 h
//	ordered     after the 13th of them, at 326 h, with 20 m3 left: 2 trucks
//	delivered   566 h: 566, 566.5 … 574.5 h, and ordered again at 572 h
//
// The holding, of 8,000 kg, is full 80 h after batch 25, at 180 h. After 18
// batches it holds 8,000 − 18·400 + 8.5·100 = 1,650 kg and is full 63.5 h later.
//
//	diverted    180 to 320 h, 392 to 566 h, 638 to 744 h: 420 h, 42,000 kg
//	mixed       25 + 18 + 18 = 61 batches: 24,400 kg, which with 42,000 and the
//	            8,000 held are the 74,400 kg of January
//	short       104 to 320 h, 329 to 566 h, 575 to 744 h: 216 + 237 + 169 = 622 h
//
// The 18 batches fill three vessels and put three batches into a fourth, which is
// sent off part-filled 6 days after the first of them was put in, at 328 and
// 574 h: at 472 and at 718 h. A vessel in which there is nothing yet waits on.
// By the end of January 5 + 4 + 4 = 13 loads are made.
func TestCaseChipsOut(t *testing.T) {
	m := paper()
	m.Chips.Capacity, m.Chips.OrderUpTo = 100, 100
	m.Chips.Reorder, m.Chips.Truckload, m.Chips.LeadTime = 21, 36, 10*sim.Day
	m.Vessels.PartFilled = 6 * sim.Day
	rec, d := follow(t, m, caseKey)

	batches := d.on("cake mixed")
	batches.at(t, "batch", every(4, 4, 25)...)
	batches[25:].at(t, "batch after the first delivery", every(320, 0.5, 18)...)
	batches[43:].at(t, "batch after the second delivery", every(566, 0.5, 18)...)
	batches.before(january).count(t, "batches in January", 61)
	d.on("chips delivered").at(t, "delivery", 320, 566)
	same(t, "chips of a delivery, kg", d.on("chips delivered")[0].Amount.Total, 72*250)

	jan := rec.Months[0]
	same(t, "chips used", jan.Chips.Used, 61*batchChips)
	near(t, "diverted", jan.Holding.DivertedDry, 42000, 0.1)
	near(t, "hours short of chips", jan.Chips.HoursShort, 622, 3.0/3600)
	same(t, "loads", jan.Loads.Filled, 13)
	same(t, "part-filled", jan.Loads.PartFilled, 2)
	out := d.on("compost unloaded")
	out[8:].at(t, "part-filled load unloaded", 472+residenceHours)
	same(t, "part-filled load, kg", out[8].Amount.Total, 3*batchWet)
	mostly(t, rec, 1, NoChips)
}

// Two feedstocks. Beside 100 kg dry/h of cake, 50 kg dry/h of manure with 40 %
// solids run in: 150 kg dry and 500 + 125 = 625 kg wet an hour. Both weigh
// 1,000 kg/m3, so that 1 m3 of what is held is 240 kg dry and 760 kg water: 160 kg
// of cake, 80 kg of manure. Nothing is short.
//
//	load   10 m3 held and 20 m3 of chips: 2,400 + 5,000 = 7,400 kg dry,
//	       7,600 kg water, 15,000 kg in all
//	batch  480 kg dry: every 480/150 = 3.2 h; load k is closed at 16k + 0.5 h and
//	       unloaded 240 h later
//
//	                 dry    ash               nitrogen
//	cake           1,600    25 %   400        4.6 %   73.6
//	manure           800    20 %   160        3.0 %   24.0
//	chips          5,000     2 %   100        0.15 %   7.5
//	load           7,400           660               105.1
//
// The volatile solids are 6,740 kg, and carbon is a 1.8th of them.
func TestCaseTwoFeedstocks(t *testing.T) {
	m := paper()
	m.Feedstocks = []Feedstock{{
		Material: material.Spec{Name: "manure", Moisture: 0.6, Volatile: 0.8, Nitrogen: 0.03, BulkDensity: 1000},
		PerDay:   repeat12(24 * 50),
		Weekday:  [7]float64{1, 1, 1, 1, 1, 1, 1},
	}}
	rec, d := follow(t, m, caseKey)
	d.on("cake and feedstocks mixed").at(t, "batch", every(3.2, 3.2, 200)...)
	out := d.on("compost unloaded")
	out.at(t, "load unloaded", every(16.5+residenceHours, 16, 30)...)

	load := out[0].Amount
	same(t, "load, kg", load.Total, 15000)
	same(t, "water, kg", load.Water, 7600)
	same(t, "ash, kg", load.Fixed, 660)
	same(t, "volatile solids, kg", load.Volatile, 6740)
	same(t, "nitrogen, kg", load.Nitrogen, 105.1)
	same(t, "carbon, kg", load.Carbon, 6740/1.8)

	jan := rec.Months[0]
	same(t, "fed", jan.Feed.Dry, january*150)
	same(t, "feedstocks", jan.Feed.FeedstockDry, january*50)
	same(t, "fed, wet", jan.Feed.Wet, january*625)
	same(t, "manure brought in", d.on("manure brought in").before(january).dry(), january*50)
	same(t, "diverted", jan.Holding.DivertedDry, 0)
	mostly(t, rec, 1, Collecting)
}

// Breakdown in the middle of a batch. Batch k is begun at 4k h and takes half an
// hour. The mixer's streams of seed 744 put its first breakdown at 176.297 h, into
// batch 44, which is begun at 176 h; the repair takes 68.653 h, and the second
// breakdown is after January.
//
//	batch 44   is 0.297 h old when the mixer stops, goes on where it was, and is
//	           discharged at 176.5 + 68.653 = 245.153 h, whole
//	held then  100 · 69.153 = 6,915 kg, which fits
//	batch 45 … one every half hour, each of which lowers what is held by
//	           400 − 50 = 350 kg, as long as 400 kg are there:
//	           j = 0 … (6,915 − 400)/350 = 18.6, so 19 batches up to 254.153 h
//	batch 64   at 256 h, and every 4 h from there, as before
//
// Nothing is diverted. In January the mixer works 185 · 0.5 = 92.5 h (the batch
// of 744 h belongs to February) and is down for 68.653 h.
func TestCaseBreakdownInABatch(t *testing.T) {
	m := paper()
	m.Mixer.Failure = Failure{Every: 20 * sim.Day, Repair: 2 * sim.Day}
	key := random.Key{Seed: 744}
	draw := func(what string, n uint64, mean sim.Duration) float64 {
		return random.Exponential{Expected: mean.Hours()}.Draw(key.Stream(what, n))
	}
	down := draw("mixer breakdown", 1, m.Mixer.Failure.Every)
	repair := draw("mixer repair", 1, m.Mixer.Failure.Repair)
	near(t, "breakdown", down, 176.297, 0.001)
	near(t, "repair", repair, 68.653, 0.001)
	if again := down + draw("mixer breakdown", 2, m.Mixer.Failure.Every); again < january {
		t.Fatalf("the mixer breaks down again at %.3f h", again)
	}

	rec, d := follow(t, m, key)
	begun, done := d.on("cake mixed"), d.on("mix loaded")
	up := 176.5 + repair
	begun.at(t, "batch before", every(4, 4, 44)...)
	done.at(t, "discharge before", every(4.5, 4, 43)...)
	done[43:].at(t, "discharge of the batch that was in the mixer", up)
	same(t, "that batch, kg", done[43].Amount.Total, batchWet)
	begun[44:].at(t, "batch after", every(up, 0.5, 19)...)
	begun[63:].at(t, "batch in the old rhythm", every(256, 4, 100)...)

	jan := rec.Months[0]
	near(t, "hours down", jan.Use[Mixers].Down, repair, 1.0/3600)
	near(t, "hours at work", jan.Use[Mixers].Busy, 92.5, 1e-9)
	same(t, "diverted", jan.Holding.DivertedDry, 0)
	mostly(t, rec, 1, Broken)
}
