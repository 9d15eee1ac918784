package plant

import "loamcast/sim"

// Aerated places: what stands on them, and their maintenance. A place that is due
// goes out of use as soon as one is free, before the next vessel is put on it; which
// place it is makes no difference.

// placeFree reports whether a vessel can be put on an aerated place.
func (p *plant) placeFree() bool {
	return p.Yard.Places == 0 || p.placesTaken+p.placesOut < p.Yard.Places
}

// leavePlace makes a place free, for maintenance first.
func (p *plant) leavePlace() {
	p.placesTaken--
	p.servicePlaces()
}

// addPlaces plans the maintenance of n more places.
func (p *plant) addPlaces(n int) {
	if p.Yard.PlaceService.Every == 0 || p.Yard.Places == 0 {
		return
	}
	for i := range n {
		p.placeDueAt(p.Yard.PlaceService.firstService(p.k.Now(), i, n))
	}
}

func (p *plant) placeDueAt(t sim.Time) {
	p.k.At(t, "place due for maintenance", func() {
		p.placesDue++
		p.servicePlaces()
		p.settle()
	})
}

// servicePlaces takes out of use what is due, as far as places are free.
func (p *plant) servicePlaces() {
	for p.placesDue > 0 && p.placeFree() {
		p.placesDue--
		p.placesOut++
		p.k.After(p.Yard.PlaceService.Takes, "place serviced", func() {
			p.placesOut--
			p.placeDueAt(p.k.Now().Add(p.Yard.PlaceService.Every))
			p.settle()
		})
	}
}
