package plant

import (
	"errors"
	"fmt"
	"math"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim/calendar"
)

// Spell is a time in which weather, cake and chips are not those of its months, such as
// a wet winter. What is zero stays as it is. Of two spells one is over before the other
// begins.
//
// A load meets the air of the day on which it is put on air, or on the pad, over all of
// its course there, as it meets that of its month: loads begun shortly before the spell
// do not feel it, and those of its last days feel it for weeks.
//
// A recipe that is designed for each month's cake is not designed anew for a spell.
// [Plant.Capacities] and all else that is arithmetic know of none.
type Spell struct {
	From calendar.Date
	For  calendar.Span
	// CakeSolids is added to the solids content of all cake, in parts of 1. No cake is
	// thinner than 5 %, nor drier than 60 %.
	CakeSolids float64
	// ChipMoisture is added, in parts of 1, to the moisture of the chips that come in the
	// spell, delivered or wood of the plant's own. Rain also falls on what the screen gives
	// back: where it is above 0, recovered chips take up water until they are as much wetter.
	// That leans to the side that warns, for their store may have a roof; in a dry spell they
	// are not dried, for the same reason. What lies in the stores as it begins stays as it is.
	ChipMoisture float64
	Temperature  float64 // K added to that outdoors
	Humidity     float64 // added to that outdoors, in parts of 1
	Production   float64 // of cake, added as a part of it: 0.1 is a tenth more; not of pulses
}

// calm is in force where no spell is.
var calm Spell

// thinnestCake and wettestChips are the ends to which a spell takes cake and chips.
const thinnestCake, wettestChips = 0.05, 0.79

// covers reports whether the spell is in force on a day.
func (s *Spell) covers(d calendar.Date) bool {
	return !d.Before(s.From) && d.Before(s.For.After(s.From))
}

func (s *Spell) validate() error {
	switch {
	case !s.From.Valid():
		return errors.New("a spell needs a date on which it begins")
	case s.For.Months < 0 || s.For.Days < 0 || s.For == calendar.Span{}:
		return fmt.Errorf("the spell of %v needs a time for which it lasts", s.From)
	case !(s.Production > -1):
		return fmt.Errorf("the spell of %v takes away more than all production", s.From)
	}
	for _, x := range [...]float64{s.CakeSolids, s.ChipMoisture, s.Temperature, s.Humidity, s.Production} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return fmt.Errorf("the spell of %v adds %g", s.From, x)
		}
	}
	return nil
}

func (m *Model) validateSpells() error {
	var errs []error
	for i := range m.Spells {
		s := &m.Spells[i]
		if err := s.validate(); err != nil {
			errs = append(errs, err)
			continue
		}
		for k := range i {
			if o := &m.Spells[k]; o.covers(s.From) || s.covers(o.From) {
				errs = append(errs, fmt.Errorf("the spells of %v and %v are at one time", o.From, s.From))
			}
		}
	}
	return errors.Join(errs...)
}

// spellOn returns the spell of a day.
func (m *Model) spellOn(d calendar.Date) *Spell {
	for i := range m.Spells {
		if m.Spells[i].covers(d) {
			return &m.Spells[i]
		}
	}
	return &calm
}

// solids returns a month's solids content of cake as it is in the spell.
func (s *Spell) solids(month float64) float64 {
	if s.CakeSolids == 0 {
		return month
	}
	return max(month+s.CakeSolids, thinnestCake)
}

// ofChips returns a month's moisture of chips as it is in the spell.
func (s *Spell) ofChips(month float64) float64 {
	if s.ChipMoisture == 0 {
		return month
	}
	return min(max(month+s.ChipMoisture, 0), wettestChips)
}

// rains reports whether chips get wet in any spell.
func (m *Model) rains() bool {
	for i := range m.Spells {
		if m.Spells[i].ChipMoisture > 0 {
			return true
		}
	}
	return false
}

// rain wets chips that the screen gave back today, and returns the water, kg, that they
// take up.
func (p *plant) rain(q *material.Parcel) float64 {
	s := p.spellOn(p.dateNow())
	moisture := q.Moisture()
	wetter := min(moisture+s.ChipMoisture, wettestChips)
	if q.Dry() <= 0 || wetter <= moisture {
		return 0
	}
	water := q.Dry()*wetter/(1-wetter) - q.Water
	q.Water += water
	return water
}

// inWeather returns the model with the air of a spell, all year round. What courses it
// has replaced comes from other, which gives the same for the same.
func (m *Model) inWeather(other func(*process.Model) *process.Model) Model {
	out := *m
	out.Spells, out.Outages = nil, nil
	out.Active, out.Pile = other(m.Active), other(m.Pile)
	out.Vessels.Classes = append([]VesselClass(nil), m.Vessels.Classes...)
	for i := range out.Vessels.Classes {
		if c := &out.Vessels.Classes[i]; c.Active != nil {
			c.Active = other(c.Active)
		}
	}
	return out
}
