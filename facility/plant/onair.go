package plant

import (
	"loamcast/facility/material"
	"loamcast/sim"
)

// content is what a load consists of: all of it, and what is left of the cake in it.
type content struct {
	parcel material.Parcel
	cake   material.Solids
}

// given is what a load has given to the air along its course.
type given struct {
	air    material.Exchange
	energy float64 // of the blower, kWh
	cake   float64 // volatile solids of the cake, kg
}

// less returns what was given since it was so much.
func (g given) less(was given) given {
	return given{g.air.Minus(was.air), g.energy - was.energy, g.cake - was.cake}
}

// follow puts a load, as it is, on its course, which begins at an instant and ends at
// another, or goes on (0).
func (l *load) follow(from, until sim.Time) {
	l.since, l.until, l.applied = from, until, 0
	l.begun, l.given = content{l.parcel, l.cake}, given{}
}

// bring brings a load to an hour of its course, and returns what it has given since it was
// last brought to one. It goes by what the load was when the course began, so that what it
// is does not depend on when it was looked at before.
func (l *load) bring(hours float64, c *material.Chemistry) given {
	was := l.given
	l.parcel, l.cake = l.begun.parcel, l.begun.cake
	l.given.air, l.given.energy = l.course.Advance(&l.parcel, hours)
	l.given.cake = l.cake.DecayAs(&l.begun.parcel.Fine, &l.parcel.Fine, c)
	l.applied = hours
	return l.given.less(was)
}
