package plant

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/sim"
)

// pad is the curing pad: lots in the order in which they came.
type pad struct {
	lots   []*load
	volume float64 // m3 taken
}

// padTakes reports whether the pad has room for a load.
func (p *plant) padTakes(l *load) bool {
	return p.pad.volume+p.Bulk.Volume(l.parcel) <= p.Curing.Capacity
}

// cure puts a load on the pad. Lots are screened in the order in which they
// came.
func (p *plant) cure(l *load) {
	now := p.k.Now()
	vessel, stay := l.course, now.Sub(l.began)
	course, err := p.padCourses.Of(l.parcel, p.k.Clock().Month(int64(now)))
	if err != nil {
		p.k.Fail(fmt.Errorf("curing of load %d: %w", l.number, err))
		return
	}
	l.began, l.course, l.applied = now, course, 0
	l.volume = p.Bulk.Volume(l.parcel)
	var wait sim.Duration
	if wait, l.failed = p.complyInCuring(vessel, stay, course); l.failed {
		wait = p.Curing.Longest
	}
	l.ready = now.Add(max(p.Curing.Time, wait))
	p.pad.lots = append(p.pad.lots, l)
	p.pad.volume += l.volume
	p.stations.pad.entered(now, 1)
	p.month.PadPeak = max(p.month.PadPeak, p.pad.volume)
	p.k.At(l.ready, "lot cured", p.settle)
}

// padHolds returns what is on the pad.
func (p *plant) padHolds() material.Parcel {
	var sum material.Parcel
	for _, l := range p.pad.lots {
		sum.Add(l.parcel)
	}
	return sum
}

// leavePad takes the first lot off the pad.
func (p *plant) leavePad(l *load) {
	now := p.k.Now()
	p.pad.lots = append(p.pad.lots[:0], p.pad.lots[1:]...)
	p.pad.volume -= l.volume
	p.stations.pad.left(now, 1, now.Sub(l.began))
}

// haulFromPad sends a lot off the site that never met its criteria.
func (p *plant) haulFromPad(l *load) {
	p.leavePad(l)
	p.books.move(p.books.divertedLots, l.parcel)
	p.month.Failed++
	p.month.FailedDry += l.parcel.Dry()
	p.month.FailedCakeDry += l.cakeDry
}
