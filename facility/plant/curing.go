package plant

import (
	"loamcast/facility/material"
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

// cure puts a load on the pad, where its room is already taken. Lots are screened in the order in which they
// came.
func (p *plant) cure(l *load) {
	now := p.k.Now()
	l.began, l.course, l.applied = now, l.curing.course, 0
	stable, ok := p.stableAfter(l)
	if !ok {
		p.month.Unstable++
	}
	l.ready = now.Add(max(p.Curing.Time, l.curing.wait, stable))
	p.pad.lots = append(p.pad.lots, l)
	p.stations.pad.entered(now, 1)
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
