package plant

import (
	"fmt"
	"testing"

	"loamcast/sim"
)

// upstream is a plant like that of the product store full, in which nobody ever
// takes product. A lot is 25 m3 all the way.
type upstream struct {
	rate              float64 // of cake, kg dry/h
	vessels           int
	lotsOnPad         int
	lotsInStore       int
	holding           float64 // kg dry
	residence, curing float64 // h
	turnaround        float64 // h
}

// instants are when each stage is full for good, h.
type instants struct {
	store, pad, vessels, holding float64
}

// interval is the time in which the cake of a load runs in, h.
func (u upstream) interval() float64 { return loadCake / u.rate }

// full is when load k is full: half an hour after the cake of its last batch is
// there.
func (u upstream) full(k int) float64 { return u.interval()*float64(k) + mixingHours }

// onPaper returns the instants of a plant of S lots in store, P on the pad, N
// vessels and H kg held, in which nothing is short until the store is full:
//
//	store     takes its last lot, S, when that has been screened for an hour
//	pad       takes its last lot, S + P, when it is due in its vessel
//	vessels   the last load, S + P + N, is full as if nothing were wrong: its
//	          vessel, which lot S + P left, is back by then
//	holding   empty after the last batch of that load, from then on it only fills
func (u upstream) onPaper() instants {
	s, p, n := u.lotsInStore, u.lotsInStore+u.lotsOnPad, u.lotsInStore+u.lotsOnPad+u.vessels
	return instants{
		store:   u.full(s) + u.residence + u.curing + 1,
		pad:     u.full(p) + u.residence,
		vessels: u.full(n),
		holding: u.full(n) - mixingHours + u.holding/u.rate,
	}
}

// charged returns what is charged to the full store by an hour, kg·d: for lots
// that are cured, for loads that are due, and for cake that is held.
func (u upstream) charged(by float64) float64 {
	sum := 0.0
	for k := u.lotsInStore + 1; k <= u.lotsInStore+u.lotsOnPad+u.vessels; k++ {
		ready := u.full(k) + u.residence
		if k <= u.lotsInStore+u.lotsOnPad {
			ready += u.curing
		}
		sum += loadCake * max(by-ready, 0)
	}
	at := u.onPaper()
	// The last batch leaves nothing. A vessel, if one were there, would be begun with
	// the cake of its first batch: until that has run in the cake held collects, and
	// its wait is nobody's fault. From there to the full holding it is the store's.
	// (The mixer, at work on the last batch, is free long before: batchCake / rate is
	// above mixingHours in all plants below, and batchCake below their holding.)
	filling := (u.holding - batchCake) / u.rate * (batchCake + u.holding) / 2
	return (sum + filling + (by-at.holding)*u.holding) / 24
}

// Blocking travels upstream, stage by stage, in plants of other sizes too: the
// instants, the cake diverted and the wait charged to the full store are those of
// the arithmetic above. It holds if the pad has room for what cures, P·T ≥ curing
// with T the interval between loads, and vessels are not short, (N − 1)·T ≥
// residence + turnaround.
func TestBlockingTravelsUpstream(t *testing.T) {
	const februaryEnds = 59 * 24.0 // h
	for _, u := range []upstream{
		{rate: 50, vessels: 8, lotsOnPad: 4, lotsInStore: 3, holding: 4000, residence: 240, curing: 120, turnaround: 30},
		{rate: 50, vessels: 8, lotsOnPad: 4, lotsInStore: 1, holding: 4000, residence: 240, curing: 120, turnaround: 30},
		{rate: 50, vessels: 8, lotsOnPad: 3, lotsInStore: 3, holding: 4000, residence: 240, curing: 120, turnaround: 40},
		{rate: 50, vessels: 8, lotsOnPad: 9, lotsInStore: 3, holding: 500, residence: 240, curing: 120, turnaround: 0},
		{rate: 100, vessels: 16, lotsOnPad: 6, lotsInStore: 2, holding: 8000, residence: 240, curing: 120, turnaround: 60},
		{rate: 80, vessels: 11, lotsOnPad: 5, lotsInStore: 4, holding: 2000, residence: 200, curing: 48, turnaround: 24},
		{rate: 40, vessels: 9, lotsOnPad: 1, lotsInStore: 1, holding: 3000, residence: 360, curing: 24, turnaround: 36},
		{rate: 125, vessels: 20, lotsOnPad: 20, lotsInStore: 10, holding: 1000, residence: 168, curing: 300, turnaround: 12},
	} {
		t.Run(fmt.Sprintf("%+v", u), func(t *testing.T) {
			m := paper()
			m.Feed.Base = 24 * u.rate
			m.Vessels.Installed = u.vessels
			m.Vessels.Turnaround = sim.DurationOf(u.turnaround * 3600)
			m.Vessels.Residence = sim.DurationOf(u.residence * 3600)
			m.Curing.Time = sim.DurationOf(u.curing * 3600)
			m.Curing.Longest = max(m.Curing.Longest, m.Curing.Time)
			const spare = 10 // m3, less than a lot
			m.Curing.Capacity = float64(u.lotsOnPad)*loadVolume + spare
			m.Product.Capacity = float64(u.lotsInStore)*loadVolume + spare
			m.Product.Demand = repeat12(0)
			m.Holding.Capacity = u.holding
			rec, d := follow(t, m, caseKey)

			want := u.onPaper()
			stored, unloaded := d.on("product screened"), d.on("compost unloaded")
			stored.count(t, "lots stored", u.lotsInStore)
			stored[len(stored)-1:].at(t, "last lot stored", want.store)
			unloaded.count(t, "loads unloaded", u.lotsInStore+u.lotsOnPad)
			unloaded[len(unloaded)-1:].at(t, "last load unloaded", want.pad)
			filled := d.on("mix loaded")
			filled.count(t, "batches", 5*(u.lotsInStore+u.lotsOnPad+u.vessels))
			filled[len(filled)-1:].at(t, "last batch", want.vessels)

			// What is booked as diverted at an instant has run in since the one before.
			diverted := d.on("cake diverted")
			first := diverted[0]
			near(t, "begin of diversion, h", hourOf(first.At)-diverted[:1].dry()/u.rate, want.holding, 1.0/3600)
			// A batch that begins a second late takes a second of what has run in.
			near(t, "diverted, kg", diverted.before(februaryEnds).dry(), (februaryEnds-want.holding)*u.rate, 2*u.rate/3600)
			same(t, "lots in store", rec.Months[1].Product.StorePeak/loadVolume, float64(u.lotsInStore))
			same(t, "vessels full", rec.Months[1].Vessels.Peak, float64(u.vessels))
			blocked := u.full(u.lotsInStore+1) + u.residence + u.curing // the next lot is cured
			near(t, "hours of a full store", rec.Months[0].Product.HoursFull+rec.Months[1].Product.HoursFull, februaryEnds-blocked, 2.0/3600)
			held := loadCake * float64(u.lotsOnPad+u.vessels)
			near(t, "waited for the store, kg·d", waits(rec, 2)[StoreFull], u.charged(februaryEnds), held*2/86400)
		})
	}
}
