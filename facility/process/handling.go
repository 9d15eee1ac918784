package process

import (
	"errors"
	"fmt"
	"math"
)

// Handling is the heat that matter loses when it is moved or turned: a part of what it
// has above the air, and so many degrees beside. Neither takes it below the air, nor
// below 0 °C, where its water would have to freeze first; what is colder than the air, or
// frozen, is left as it is.
type Handling struct {
	Share float64 // of the difference to the air, 0…1
	Drop  float64 // K
}

// DefaultHandling is an assumption: a third of the warmth is lost to the air while a
// vessel is tipped out and a pile built of it.
func DefaultHandling() Handling { return Handling{Share: 1. / 3} }

// After returns the temperature, °C, of matter of t °C that was handled in air of
// ambient °C.
func (h Handling) After(t, ambient float64) float64 {
	if t <= max(ambient, 0) {
		return t
	}
	return max(ambient+max(0, (t-ambient)*(1-h.Share)-h.Drop), 0)
}

func (h Handling) validate() error {
	if !(h.Share >= 0 && h.Share <= 1 && h.Drop >= 0) || math.IsInf(h.Drop, 0) {
		return fmt.Errorf("handling: it loses a part between 0 and 1 of the warmth, and no negative drop, not %g and %g K", h.Share, h.Drop)
	}
	return nil
}

// Turning is when a pile is turned: by the clock, by its temperature, or both. It mixes
// the pile, which is the same all through anyway here, and cools it.
type Turning struct {
	At []float64 // h after the course began, rising
	// Above is the temperature, °C, from which on a pile is turned that has lain still
	// for Apart, h; 0 if temperature is of no account.
	Above, Apart float64
	Loses        Handling
}

// DefaultApart is an assumption: a hot pile is not turned again within three days.
const DefaultApart = 3 * hoursPerDay

// DefaultTurning turns a pile once a week for six weeks, and loses as much as
// DefaultHandling each time. An assumption.
func DefaultTurning() Turning {
	t := Turning{Loses: DefaultHandling()}
	for week := range 6 {
		t.At = append(t.At, 7*hoursPerDay*float64(1+week))
	}
	return t
}

// turns reports whether a pile is turned by the clock, byHeat by its temperature.
func (t *Turning) turns() bool  { return len(t.At) > 0 }
func (t *Turning) byHeat() bool { return t.Above > 0 }

func (t *Turning) validate(m *Model) error {
	switch {
	case (t.turns() || t.byHeat()) && len(m.Program) > 1:
		return errors.New("turning: what is turned has a program of one segment")
	case !(t.Above >= 0) || math.IsInf(t.Above, 0):
		return fmt.Errorf("turning: %g °C is no temperature at which a pile is turned", t.Above)
	case t.byHeat() && !(t.Apart > 0):
		return errors.New("turning: a pile that is turned when it is hot lies still for a time in between")
	}
	before := 0.0
	for _, at := range t.At {
		if !(at > before) || math.IsInf(at, 0) {
			return errors.New("turning: the hours at which a pile is turned must rise, from above 0")
		}
		before = at
	}
	return t.Loses.validate()
}

// byClock returns the hour at which the pile is turned next by the clock.
func (r *run) byClock() float64 {
	if at := r.m.Turning.At; r.turned < len(at) {
		return at[r.turned]
	}
	return math.Inf(1)
}

// nextTurn returns the hour up to which a step may go before the pile is turned, or may be.
func (r *run) nextTurn() float64 {
	next := r.byClock()
	if rested := r.lay + r.m.Turning.Apart; r.m.Turning.byHeat() && rested > r.hours {
		next = min(next, rested)
	}
	return next
}

// turn turns the pile if it is due.
func (r *run) turn() {
	t := &r.m.Turning
	switch {
	case r.hours >= r.byClock():
		r.turned++
	case !(t.byHeat() && r.temperature >= t.Above && r.hours >= r.lay+t.Apart):
		return
	}
	r.lay = r.hours
	after := r.m.Turning.Loses.After(r.level, r.inlet.temperature) // what is frozen, be it in part, stays so
	r.energy.Handling += (r.level - after) * r.m.Heat.Of(r.parcel.Dry(), r.parcel.Water)
	r.level, r.temperature = after, r.felt(after)
	r.last = stepInfo{segment: r.last.segment} // what was expected of the next step holds no more
}
