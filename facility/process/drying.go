package process

import (
	"slices"
)

// Settings of drying that practice would choose; a facility file has its own. Screens
// work well at 45 to 50 % moisture (common practice, no source). Blowers of composting
// piles and vessels give 100 to 200 m3/h per dry tonne (common practice, no source):
// what is then cool dries by that much air or not at all.
const (
	DryEnough = 0.48 // moisture at which a lot is screened
	DryingAir = 100  // m3/h per dry tonne
)

// Dries returns the model of a load that has been in m and has only to get dry: whatever
// its setpoint asks for, it gets air, m3/h per dry tonne at the beginning, and no
// criterion is judged. The setpoint is that of the last segment of the program. The fans
// of a pile are taken to give the air; a vessel's share of the blowers stays what it is.
// A course begins with what is alive already, at the temperature that [Model.DriesFrom] gives.
//
// Air dries by what it lifts: the heat for that comes from what still decays, from
// what the load has stored and, when it is as cold as air that evaporation has
// cooled, from the air itself (see the package comment). So a load that has little
// left to degrade dries slowly in winter, however much air it gets.
func (m *Model) Dries(air float64) *Model {
	d := *m
	last := m.Program[len(m.Program)-1]
	d.Program = []Segment{{Name: "dry", Hours: last.Hours, Setpoint: last.Setpoint, MinFlow: max(air, last.MinFlow)}}
	if d.Blower.Capacity == 0 {
		d.Blower.PerDry = max(d.Blower.PerDry, air)
	}
	d.Kinetics.Awakening = Awakening{}
	d.Loading = Loading{Fine: dryingAt, Chips: dryingAt}
	d.Criteria, d.Intake, d.Tipped, d.Turning = nil, nil, &Handling{}, Turning{}
	return &d
}

// dryingAt is at which temperature, °C, loads that dry are told apart by their rate.
const dryingAt = 35

// DriesFrom returns the temperature, °C, from which on a load of t °C dries: its own, or
// that of ice if it is freezing.
func (m *Model) DriesFrom(t float64) float64 {
	if ice, freezing := m.Heat.Ice(t); freezing {
		return ice
	}
	return t
}

// NewDryingResponses returns an empty table for [Model.Dries]. Its courses are followed
// as closely as those of vessels: a load that is hot when it gets much air is cool
// within hours, and wet for days. Ask [Responses.From] for them.
func NewDryingResponses(m *Model, air, maxHours float64) *Responses {
	r := NewResponses(m.Dries(air), maxHours)
	r.steps, r.grid = tableSteps, thinned(tablePace, brisk)
	r.byDry, r.levels, r.spacing = false, 1, &dryingSpacing
	r.maxHours = r.grid.end(maxHours)
	return r
}

// AfterProgram is the segment of the samples that [Course.Then] adds.
const AfterProgram = -1

// Then returns the course that goes on with another one, which must begin with what
// this one ends with. The criteria are judged as on this one alone.
func (c *Course) Then(next *Course) *Course {
	end := c.Final()
	out := *c
	if end.Hours == 0 { // nothing but where the other one begins
		out.Samples = nil
	}
	out.Samples = slices.Clone(out.Samples)
	for _, s := range next.Samples {
		s.Hours += end.Hours
		s.Exchange = s.Exchange.Plus(end.Exchange)
		s.Air += end.Air
		s.Blower += end.Blower
		s.Condensate += end.Condensate
		s.Segment = AfterProgram
		out.Samples = append(out.Samples, s)
	}
	out.Energy = c.Energy.Plus(next.Energy)
	lost := c.Heat + c.Energy.Stored - next.Heat // what is freezing goes on as ice
	out.Energy.Handling += lost
	out.Energy.Stored -= lost
	return &out
}

// MoistureAt reads the moisture of a course at an hour, in straight lines between its
// steps; after the last it stays.
func (c *Course) MoistureAt(hours float64) float64 {
	before, moisture := 0.0, c.Initial.Moisture()
	for _, s := range c.Samples {
		after := s.Parcel.Moisture()
		if s.Hours >= hours && s.Hours > before {
			return moisture + (after-moisture)*(hours-before)/(s.Hours-before)
		}
		before, moisture = s.Hours, after
	}
	return moisture
}
