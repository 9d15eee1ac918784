package plant

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/sim"
)

// pad is the curing pad. Lots cure and are screened in the order in which they
// came; a plant that screens first has lots waiting for the screen beside lots
// that cure after it.
type pad struct {
	lots   []*load // cure, then wait for the screen or, screened, for the product store
	raw    []*load // wait for the screen, to be cured after it
	cured  dueTime // of lots
	volume float64 // m3 taken
}

// padTakes reports whether the pad has room for a load.
func (p *plant) padTakes(l *load) bool {
	return p.pad.volume+p.volumeToCure(l) <= p.Curing.Capacity
}

// receive puts what was tipped out on the pad, where its room is already taken.
func (p *plant) receive(l *load) {
	p.stations.pad.entered(p.k.Now(), 1)
	if p.Screening.First {
		l.began, l.ready = p.k.Now(), p.k.Now()
		p.gateTipped(l)
		p.pad.raw = append(p.pad.raw, l)
		return
	}
	p.wet(l)
	l.course = l.curing.course
	p.cure(l)
}

// cure begins the curing of a lot along its course.
func (p *plant) cure(l *load) {
	now := p.k.Now()
	l.began = now
	l.follow(now, 0)
	stable, ok := p.stableAfter(l)
	if !ok {
		p.month.Curing.Unstable++
	}
	stay := max(p.Curing.Time, l.curing.wait, stable)
	l.ready = now.Add(stay)
	p.gateCured(l)
	p.month.Curing.Room += l.volume * l.ready.Sub(now).Days()
	p.month.Curing.CakeDry += l.cakeDry
	p.pad.lots = append(p.pad.lots, l)
	p.pad.cured.expect(l.ready)
	p.k.At(l.ready, "lot cured", p.wake)
}

// cureScreened cures what came through the screen.
func (p *plant) cureScreened(l *load, q material.Parcel) {
	l.cake = l.cake.Times(min(1, share(q.Fine.Fixed, l.parcel.Fine.Fixed))) // the rest clings to overs
	l.parcel = q
	water := p.wet(l)
	today := p.dateNow()
	if p.spread(l, p.airOn(today).PadStart(l.tipped, l.parcel, water, today.Month)) {
		p.cure(l)
	}
}

// spread lays a lot on the pad as it is, with the course that it has today from a
// temperature, °C. It reports whether there is such a course.
func (p *plant) spread(l *load, warmth float64) bool {
	today := p.dateNow()
	if err := p.airOn(today).padCourses.From(&l.course, &l.parcel, today.Month, warmth); err != nil {
		p.k.Fail(fmt.Errorf("curing of load %d: %w", l.number, err))
		return false
	}
	l.volume = p.Bulk.VolumeOf(&l.parcel)
	p.pad.volume += l.volume
	p.stations.pad.entered(p.k.Now(), 1)
	return true
}

// storeCured brings the first lot that has cured after the screen to the
// product store, when it has room.
func (p *plant) storeCured() bool {
	if !p.Screening.First || len(p.pad.lots) == 0 || p.product.blocked {
		return false
	}
	l := p.pad.lots[0]
	if l.ready > p.k.Now() {
		return false
	}
	p.advance(l, p.books.padAir)
	if !p.productTakes(l.parcel) {
		p.product.blocked = true // until product is next taken
		return false
	}
	p.endWait(l)
	p.month.Curing.Days += p.k.Now().Sub(l.began).Days()
	p.pad.lots = p.leavePad(p.pad.lots, 0)
	p.move(p.books.padToProduct, &l.parcel, l.number)
	p.storeProduct(l, l.parcel)
	p.discard(l)
	return true
}

// padHolds returns what is on the pad.
func (p *plant) padHolds() material.Parcel {
	var sum material.Parcel
	for _, l := range p.pad.lots {
		sum.Mix(&l.parcel)
	}
	for _, l := range p.pad.raw {
		sum.Mix(&l.parcel)
	}
	return sum
}

// metered returns since when the pad's meter counts a lot: not before the run.
func (l *load) metered() sim.Time { return max(l.began, 0) }

// leavePad takes a lot of a queue off the pad, by its place there.
func (p *plant) leavePad(queue []*load, i int) []*load {
	now := p.k.Now()
	l := queue[i]
	p.pad.volume -= l.volume
	p.stations.pad.left(now, 1, now.Sub(l.metered()))
	return append(queue[:i], queue[i+1:]...)
}
