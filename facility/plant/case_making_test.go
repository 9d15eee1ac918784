package plant

import "testing"

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
//	held at the end      4,600 after the last at 743 1/3 h, and 2/3 h: 4,800 kg
//	diverted             (371 − 23)·200 = 69,600 kg; and 223,200 kg came in, which
//	                     is 148,800 + 4,800 + 69,600
//
// The first batch, and so each, may be a second late: 300/3,600 kg.
func TestCaseMixerLimited(t *testing.T) {
	m := paper()
	m.Feed.Base = 7200
	m.Mixer.BatchTime = 2 * 3600
	m.Holding.Capacity = 5000
	rec, d := follow(t, m, caseKey)
	d.on("cake mixed").at(t, "batch", every(4.0/3, 2, 372)...)
	d.on("mix loaded").at(t, "discharge", every(4.0/3+2, 2, 371)...)
	jan := rec.Months[0]
	same(t, "batches", jan.Batches, 371)
	same(t, "loads", jan.Loads, 74)
	same(t, "fed", jan.FeedDry, 223200)
	same(t, "mixed", jan.MixedDry, 148800)
	near(t, "diverted", jan.DivertedDry, 69600, 300.0/3600)
	same(t, "diverted before it is full", d.on("cake diverted").before(4.0/3+2*23).dry(), 0)
	mostly(t, rec, 1, Mixing)
}
