package plant

import (
	"testing"

	"loamcast/sim"
)

// Product store full. Nobody takes product until March. Cake runs in at 50 kg/h: a
// batch every 8 h, load k is full at 40k + 0.5 h. 8 vessels, 240 h in them, turned
// round in 30 h; 120 h on the pad; 1 h on the screen. A lot is 25 m3 all the way;
// the pad has room for four (110 m3), the store for three (80 m3), the holding for
// 4,000 kg. The shortage travels upstream, stage by stage:
//
//	store     lot k is stored at 40k + 361.5 h: three lots by 481.5 h, then full
//	screen    lot 4 is cured at 520.5 h and stays on the pad
//	pad       holds lots 4 to 7 from 520.5 h on, when lot 7 comes: full
//	vessels   load 8 is due at 560.5 h and stays. Load 14 is full at 560.5 h, load
//	          15, in the vessel that load 7 left at 520.5 h, at 600.5 h: with loads
//	          8 to 15 all vessels are full
//	holding   empty after the batch of 600 h, full at 680 h
//	fence     50 kg/h are diverted from 680 h on
//
// and nothing is lost on the way, nor made. At the end of February, 1,416 h:
//
//	cake      50 · 1,416 = 70,800 kg came in: 50 · 736 = 36,800 kg were diverted,
//	          4,000 kg are held, 15 · 2,000 = 30,000 kg were mixed
//	loads     of 15 loads of 15,000 kg 8 are in vessels, 4 on the pad, 3 in store
//	due       load k at 40k + 240.5 h; loads 8 to 15 have waited in their vessels for
//	          8 · 1,175.5 − 40 · 92 = 5,724 h with 2,000 kg of cake each
//
// In March 25 m3 are taken each midnight, first on the 2nd, at 1,440 h. In that
// second lot 4 goes on the screen and load 8 on the pad, and 30 h later, at
// 1,470 h, load 16 is begun, whose cake is held: five batches until 1,472 h. Until
// 1,470 h 790 · 50 = 39,500 kg were diverted. The next day moves the next lot.
func TestCaseProductStoreFull(t *testing.T) {
	m := paper()
	m.Feed.Base = 24 * 50
	m.Vessels.Installed, m.Vessels.Turnaround = 8, 30*sim.Hour
	m.Holding.Capacity = 4000
	m.Curing.Capacity = 110
	m.Product.Capacity = 80
	m.Product.Demand = [12]float64{2: 25}
	rec, d := follow(t, m, caseKey)

	const february, taken = 59 * 24.0, 60 * 24.0 // h: its end, and product taken first
	stored, screened := d.on("product screened"), d.on("cured mix screened")
	unloaded, loaded := d.on("compost unloaded"), d.on("mix loaded")
	mixed, diverted := d.on("cake mixed"), d.on("cake diverted")

	stored.at(t, "lot stored", 441.5-40, 441.5, 481.5, taken+1, taken+25)
	screened.at(t, "lot screened", 400.5, 440.5, 480.5, taken, taken+24)
	unloaded.at(t, "load unloaded", append(every(280.5, 40, 7), taken, taken+24)...)
	mixed.at(t, "batch", append(every(8, 8, 75), every(taken+30, 0.5, 5)...)...)
	d.loadsBegun()[15:].at(t, "first batch of load 16 on", taken+30, taken+24+30)
	diverted.before(680).count(t, "diverted before the holding is full", 0)
	near(t, "diverted until load 16 is begun", diverted.before(taken+30).dry(), 39500, 0.1)

	same(t, "came in", d.on("cake produced").before(february).dry(), 70800)
	near(t, "diverted", diverted.before(february).dry(), 36800, 0.1)
	same(t, "mixed", mixed.before(february).dry(), 15*loadCake)
	for _, stage := range []struct {
		name   string
		in     diary
		passed float64 // loads
	}{{"vessels", loaded, 15}, {"pad", unloaded, 7}, {"screen", screened, 3}, {"store", stored, 3}, {"market", d.on("product taken"), 0}} {
		same(t, "came into "+stage.name+", kg", stage.in.before(february).wet(), stage.passed*5*batchWet)
	}
	near(t, "due loads waited", rec.Months[0].Release.Waited+rec.Months[1].Release.Waited, 5724*loadCake/24, 0.2) // a second of each load
	same(t, "vessels in use", rec.Months[1].Vessels.Mean, 8)
	same(t, "on the pad at most, m3", rec.Months[1].Curing.PadPeak, 4*loadVolume)
	// Nothing comes in February, and it begins with a full store and pad.
	same(t, "in store at most, m3", rec.Months[1].Product.StorePeak, 3*loadVolume)
	mostly(t, rec, 2, StoreFull)
}
