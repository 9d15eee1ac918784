package plant

import (
	"errors"

	"loamcast/facility/material"
)

// Rewet is water for lots that are too dry to cure: those whose moisture is under
// Below are brought to UpTo. Zero for none.
//
// It is added where a plant can mix it in, as a lot is put up on the pad: a sealed
// vessel has nothing that turns the load, and water from above would run down a few
// channels. Where lots begin to cure at what they were tipped with the water is as warm as
// the air, not below 0 °C, and cools them; elsewhere it has the temperature that the pad's
// model gives a lot.
type Rewet struct{ Below, UpTo float64 } // of the wet mass, 0…1

// On reports whether any lot could get water.
func (w Rewet) On() bool { return w.Below > 0 }

// Of returns a lot with the water that it gets, and how much that is, kg.
func (w Rewet) Of(lot material.Parcel) (material.Parcel, float64) {
	if !w.On() || lot.Moisture() >= w.Below {
		return lot, 0
	}
	water := max(0, lot.Dry()*w.UpTo/(1-w.UpTo)-lot.Water)
	lot.Water += water
	return lot, water
}

func (c *Curing) rewetValid() error {
	switch w := c.Rewet; {
	case w == (Rewet{}):
	case !(w.Below > 0 && w.Below <= w.UpTo && w.UpTo < 1):
		return errors.New("the moisture under which lots get water must lie between 0 and the one that they are brought to, and that below 1")
	case c.Time == 0:
		return errors.New("lots that do not cure need no water")
	}
	return nil
}

// toCure returns a load as it would be put up on the pad now, and the water, kg, that it
// would get for it.
func (p *plant) toCure(l *load) (material.Parcel, float64) {
	if p.Screening.First { // it lies there first as it is, and gets its water after the screen
		return l.parcel, 0
	}
	return p.Curing.Rewet.Of(l.parcel)
}

// volumeToCure returns the room that a load would take on the pad now, m3.
func (p *plant) volumeToCure(l *load) float64 {
	if !p.Curing.Rewet.On() {
		return p.Bulk.VolumeOf(&l.parcel)
	}
	lot, _ := p.toCure(l)
	return p.Bulk.VolumeOf(&lot)
}

// wet gives a lot that is put up to cure the water that it lacks, and returns how much,
// kg.
func (p *plant) wet(l *load) float64 {
	lot, water := p.Curing.Rewet.Of(l.parcel)
	if water == 0 {
		return 0
	}
	l.parcel = lot
	p.book(p.books.water, material.Components{Water: water, Total: water}, l.number)
	p.month.Curing.Water += water
	p.month.Curing.Rewetted++
	return water
}
