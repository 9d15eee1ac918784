package plant

import (
	"loamcast/facility/material"
	"loamcast/sim"
)

// holding is dewatered cake on its way to the mixer. Cake flows in at a rate
// that is constant between two days' ends; what does not fit is diverted.
type holding struct {
	parcel material.Parcel
	dry    float64         // of it, kg: what is asked for at every turn
	inflow material.Parcel // per second, of all sources
	rate   float64         // of it, kg dry per second
	// sources are the cake and the feedstocks, in the model's order.
	sources []material.Parcel
	synced  sim.Time
}

// take removes a share of what is held.
func (h *holding) take(cake *material.Parcel, part float64) {
	h.parcel.TakeTo(cake, part)
	h.dry = h.parcel.Dry()
}

// syncHolding brings the holding up to now.
func (p *plant) syncHolding() {
	h := &p.holding
	now := p.k.Now()
	seconds := float64(now.Sub(h.synced))
	if seconds == 0 {
		return
	}
	before := h.dry
	var arrived, diverted material.Parcel
	arrived.AddTimes(&h.inflow, seconds)
	arrivedDry, divertedDry := arrived.Dry(), 0.0
	space := max(0, p.Holding.Capacity-before)
	full := now
	if arrivedDry > space {
		fits := share(space, arrivedDry)
		full = h.synced.Add(sim.DurationOf(seconds * fits))
		diverted.AddTimes(&arrived, 1-fits)
		divertedDry = diverted.Dry()
		kept := arrived.Minus(diverted)
		h.parcel.Mix(&kept)
	} else {
		h.parcel.Mix(&arrived)
	}
	held := h.parcel.Dry()
	h.dry = held
	p.measureHeld(held)
	p.stations.holding.ramp(h.synced, full, now, held, arrivedDry-divertedDry)
	p.chargeWaits((before+held)/2*float64(full.Sub(h.synced)) + held*float64(now.Sub(full)))
	h.synced = now

	p.bookFeed(&arrived, seconds)
	p.month.Feed.Dry += arrivedDry
	p.month.Feed.Wet += arrived.Total()
	if arrivedDry > space {
		p.move(p.books.divertedCake, &diverted, 0)
		p.month.Holding.DivertedDry += divertedDry
		p.month.Holding.DivertedWet += diverted.Total()
	}
}

// bookFeed books what came in over some seconds, all in all and by its sources.
func (p *plant) bookFeed(arrived *material.Parcel, seconds float64) {
	h := &p.holding
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
	h := &p.holding
	now := p.k.Now()
	h.take(cake, share(dry, h.dry))
	waited, oldest := p.stations.holding.take(now, cake.Dry())
	p.month.Holding.Waited += waited / float64(sim.Day)
	p.month.Holding.Oldest = max(p.month.Holding.Oldest, oldest.Days())
}

// longestWait is how far ahead the plant looks for cake; what runs in is set anew
// every day.
const longestWait = 366 * sim.Day

// lacks reports whether less than dry kg are held.
func (h *holding) lacks(dry float64) bool { return dry-h.dry > 0 }

// comesIn returns how long it takes, at today's inflow, until dry kg are held that are
// lacking now; ok is false when that never comes.
func (h *holding) comesIn(dry float64) (d sim.Duration, ok bool) {
	missing := dry - h.dry
	if missing > h.rate*float64(longestWait) {
		return 0, false
	}
	return sim.DurationOf(missing/h.rate) + sim.Second, true
}
