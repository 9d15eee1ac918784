package plant

import (
	"loamcast/facility/material"
	"loamcast/facility/screening"
	"loamcast/sim"
)

// Units returns how many screens there are.
func (s *Screening) Units() int { return max(1, s.Count) }

// screens are those of a running plant. Several lots may be screened at a time, one on
// each.
type screens struct {
	units  []screenUnit
	inHand int // lots on them
}

// screenUnit is a screen and the lot on it, already split. While it is not busy, the split
// is that of some lot before.
type screenUnit struct {
	busy     bool
	since    sim.Time
	load     *load
	split    screening.Split
	screened func() // ends its lot; bound once
}

// addScreens puts n more screens up.
func (p *plant) addScreens(n int) {
	for range n {
		unit := len(p.screens.units)
		p.screens.units = append(p.screens.units, screenUnit{screened: func() { p.lotScreened(unit) }})
	}
}

// free returns the first screen on which there is no lot.
func (s *screens) free() int {
	for i := range s.units {
		if !s.units[i].busy {
			return i
		}
	}
	return len(s.units)
}

// hold returns what is on all screens.
func (s *screens) hold() (sum material.Parcel) {
	for i := range s.units {
		if u := &s.units[i]; u.busy {
			lot := u.split.Product.Plus(u.split.Recovered).Plus(u.split.Rejects)
			sum.Mix(&lot)
		}
	}
	return sum
}

// stayed returns for how many seconds the lots have been there, all together.
func (s *screens) stayed(now sim.Time) float64 {
	sum := 0.0
	for i := range s.units {
		if u := &s.units[i]; u.busy {
			sum += float64(now.Sub(u.since))
		}
	}
	return sum
}

// full reports whether there is a lot on every screen.
func (s *screens) full() bool { return s.inHand == len(s.units) }

// screenFree reports whether a screen that works is free, hours aside. A lot that a
// breakdown has stopped goes to the next screen that is free, before others.
func (p *plant) screenFree() bool {
	r := p.resources[Screens]
	return p.screens.inHand < r.Capacity()-r.Down() && r.free()
}

// productComing returns what the lots on the screens will bring to the product store, m3.
func (p *plant) productComing() float64 {
	if p.screens.inHand == 0 || p.Screening.First {
		return 0
	}
	sum := 0.0
	for i := range p.screens.units {
		if u := &p.screens.units[i]; u.busy {
			sum += p.Bulk.Volume(u.split.Product)
		}
	}
	return sum
}
