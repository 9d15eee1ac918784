package plant

import (
	"math"

	"loamcast/facility/material"
	"loamcast/sim"
)

// Units returns how many mixers there are.
func (m *Mixer) Units() int { return max(1, m.Count) }

// mixers are those of a running plant. Several batches of the load in hand may be mixed
// at a time, one in each; the vessel is closed when the last of them is in it.
type mixers struct {
	units  []mixerUnit
	inHand int // batches in them
	// cakeFor is the mixer whose batch had its cake made last, and cakeMade when that
	// is done: there is one dewatering, whatever the number of mixers.
	cakeFor  int
	cakeMade sim.Time
}

// mixerUnit is a mixer, which holds at most one batch.
type mixerUnit struct {
	busy    bool
	since   sim.Time
	content material.Parcel
	mixed   func() // ends its batch; bound once
}

// notKnown is when the cake of a batch is made whose mixer has broken down.
const notKnown = sim.Time(math.MaxInt64)

// addMixers puts n more mixers up.
func (p *plant) addMixers(n int) {
	for range n {
		unit := len(p.mixers.units)
		p.mixers.units = append(p.mixers.units, mixerUnit{mixed: func() { p.batchMixed(unit) }})
	}
}

// free returns the first mixer in which there is no batch.
func (m *mixers) free() int {
	for i := range m.units {
		if !m.units[i].busy {
			return i
		}
	}
	return len(m.units)
}

// hold returns what is in all mixers.
func (m *mixers) hold() (sum material.Parcel) {
	for i := range m.units {
		if u := &m.units[i]; u.busy {
			sum.Mix(&u.content)
		}
	}
	return sum
}

// stayed returns for how many seconds the batches in hand have been there, all together.
func (m *mixers) stayed(now sim.Time) float64 {
	sum := 0.0
	for i := range m.units {
		if u := &m.units[i]; u.busy {
			sum += float64(now.Sub(u.since))
		}
	}
	return sum
}

// full reports whether there is a batch in every mixer.
func (m *mixers) full() bool { return m.inHand == len(m.units) }

// mixerFree reports whether a mixer that works is free, hours aside. A batch that a
// breakdown has stopped goes on in the next mixer that is free, and goes before others.
func (p *plant) mixerFree() bool {
	r := p.resources[Mixers]
	return p.mixers.inHand < r.Capacity()-r.Down() && r.free()
}

// batchToBegin reports whether a batch of the load that is being loaded is still to be
// begun.
func (p *plant) batchToBegin(l *load) bool {
	return !l.overdue && l.batches+p.mixers.inHand < l.plan.batches
}

// dewateringFree reports whether no cake is being made for another batch; if some is,
// it sets the alarm to when that is done.
func (p *plant) dewateringFree() bool {
	m := &p.mixers
	if p.Dewatering.Rate == 0 || m.inHand == 0 || m.cakeMade <= p.k.Now() {
		return true
	}
	if m.cakeMade != notKnown {
		p.alarms.dewatering.set(m.cakeMade)
	}
	return false
}

// stopMaking is called before a mixer breaks down. If that stops a batch and cake is
// being made, it is taken to be for that one, and dewatering is bound to it until it is
// mixed: rather too long than too short.
func (p *plant) stopMaking() {
	m := &p.mixers
	if p.resources[Mixers].Free() <= 0 && m.cakeMade > p.k.Now() {
		m.cakeMade = notKnown
	}
}

// whyMixersWait explains cake that is held while batches of the load in hand are in the
// mixers and none is left to be begun.
func (p *plant) whyMixersWait() Cause {
	if r := p.resources[Mixers]; r.broken() && p.mixers.inHand > r.Busy() {
		return Broken
	}
	return Mixing
}
