package plant

import (
	"loamcast/facility/material"
	"loamcast/sim"
)

// holding is dewatered cake on its way to the mixer. Cake flows in at a rate
// that is constant between two days' ends; what does not fit is diverted.
//
// What is held is brought up to date whenever the plant settles. It is booked, in the
// ledger, the meters and the month, when cake is taken, when the rate changes and while some
// is diverted: in between it is what it was then and what has come in since.
type holding struct {
	parcel material.Parcel
	dry    float64         // of it, kg: what is asked for at every turn
	inflow material.Parcel // per second, of all sources
	rate   float64         // of it, kg dry per second
	// sources are the cake and the feedstocks, in the model's order.
	sources []material.Parcel
	synced  sim.Time        // when it was brought up to date
	booked  sim.Time        // when it was booked
	begun   material.Parcel // what was held then
}

// rebase takes what is held now for what is booked.
func (h *holding) rebase() {
	h.dry, h.begun = h.parcel.Dry(), h.parcel
}

// at reckons what is held at an instant, of what was booked and has come in since.
func (h *holding) at(t sim.Time) {
	h.parcel.SetSum(&h.begun, &h.inflow, float64(t.Sub(h.booked)))
}

// take removes a share of what is held, which is booked.
func (h *holding) take(cake *material.Parcel, part float64) {
	h.parcel.TakeTo(cake, part)
	h.rebase()
}

// syncHolding brings the holding up to now.
func (p *plant) syncHolding() {
	h := &p.holding
	now := p.k.Now()
	if now == h.synced {
		return
	}
	h.at(now)
	held := h.parcel.Dry()
	if held > p.Holding.Capacity {
		h.at(h.synced)
		p.bookHeld()
		p.divert()
		return
	}
	p.chargeWaits((h.dry + held) / 2 * float64(now.Sub(h.synced)))
	h.dry, h.synced = held, now
}

// bookHeld books what has come in since the holding was last booked, up to when it was
// last brought up to date. All of it is held.
func (p *plant) bookHeld() {
	h := &p.holding
	if h.booked == h.synced {
		return
	}
	seconds := float64(h.synced.Sub(h.booked))
	var arrived material.Parcel
	arrived.AddTimes(&h.inflow, seconds)
	p.bookFeed(&arrived, seconds)
	p.measureHeld(h.dry)
	p.stations.holding.ramp(h.booked, h.synced, h.synced, h.dry, arrived.Dry())
	h.booked, h.begun = h.synced, h.parcel
}

// divert brings a holding that is booked, and has become full, up to now. What came in
// since then is diverted.
func (p *plant) divert() {
	h := &p.holding
	now := p.k.Now()
	seconds := float64(now.Sub(h.synced))
	before := h.dry
	var arrived, diverted material.Parcel
	arrived.AddTimes(&h.inflow, seconds)
	arrivedDry := arrived.Dry()
	fits := share(max(0, p.Holding.Capacity-before), arrivedDry)
	full := h.synced.Add(sim.DurationOf(seconds * fits))
	diverted.AddTimes(&arrived, 1-fits)
	kept := arrived.Minus(diverted)
	h.parcel.Mix(&kept)
	h.rebase()
	p.bookFeed(&arrived, seconds)
	p.move(p.books.divertedCake, &diverted, 0)
	p.month.Holding.DivertedDry += diverted.Dry()
	p.month.Holding.DivertedWet += diverted.Total()
	p.measureHeld(h.dry)
	p.stations.holding.ramp(h.synced, full, now, h.dry, arrivedDry-diverted.Dry())
	p.chargeWaits((before+h.dry)/2*float64(full.Sub(h.synced)) + h.dry*float64(now.Sub(full)))
	h.synced, h.booked = now, now
}

// bookFeed books what came in over some seconds, all in all and by its sources.
func (p *plant) bookFeed(arrived *material.Parcel, seconds float64) {
	h := &p.holding
	p.month.Feed.Dry += arrived.Dry()
	p.month.Feed.Wet += arrived.Total()
	if len(h.sources) == 1 {
		p.move(p.books.feed[0], arrived, 0)
		return
	}
	for i := range h.sources {
		var q material.Parcel
		q.AddTimes(&h.sources[i], seconds)
		p.move(p.books.feed[i], &q, 0)
		if i > 0 {
			p.month.Feed.FeedstockDry += q.Dry()
			p.month.Feed.FeedstockWet += q.Total()
		}
	}
}

// measureHeld sees how much cake is held, kg dry. Between two looks it only grows, so that
// it is never more than at the second of them.
func (p *plant) measureHeld(held float64) {
	m := &p.month.Holding
	if held <= m.Peak && held < m.Fullest*p.Holding.Capacity*(1-rounding) {
		return // it has been fuller
	}
	m.Peak = max(m.Peak, held)
	m.Fullest = max(m.Fullest, share(held, p.Holding.Capacity))
}

// takeCake removes dry kg of cake with its water.
func (p *plant) takeCake(cake *material.Parcel, dry float64) {
	p.bookHeld()
	h := &p.holding
	now := p.k.Now()
	h.take(cake, share(dry, h.dry))
	waited, oldest := p.stations.holding.take(now, cake.Dry())
	p.month.Holding.Waited += waited / float64(sim.Day)
	p.month.Holding.Oldest = max(p.month.Holding.Oldest, oldest.Days())
}

// lacks reports whether less than dry kg are held.
func (h *holding) lacks(dry float64) bool { return dry-h.dry > 0 }

// comesIn returns how long it takes, at today's inflow, until dry kg are held that are
// lacking now; ok is false when that does not come within a time.
func (h *holding) comesIn(dry float64, within sim.Duration) (d sim.Duration, ok bool) {
	missing := dry - h.dry
	if missing >= h.rate*float64(within) {
		return 0, false
	}
	d = sim.DurationOf(missing/h.rate) + sim.Second
	return d, d < within
}
