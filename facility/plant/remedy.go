package plant

import (
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/release"
	"loamcast/sim"
)

// Remedy is drying that would bring a lot to the moisture at which it screens well, as
// a course of the pad with more air shows it. The zero value is that of no lot.
type Remedy struct {
	Air     float64 // m3/h per dry tonne
	OK      bool    // within the time that is looked at
	Days    float64 // that it takes, or that are looked at
	Reached float64 // moisture after these days
}

// Needed reports whether there is anything to dry.
func (r Remedy) Needed() bool { return r.Air > 0 }

// longestRemedy is how long the drying of a remedy is followed.
const longestRemedy = 60 * sim.Day

// RemedyFor dries a lot of a temperature, °C, on the pad in the weather of a month, down
// to the moisture limit of the screen: with the air that the model has for that, or
// else with what practice would give ([process.DryingAir]).
func (m *Model) RemedyFor(lot material.Parcel, warmth float64, month time.Month) (Remedy, error) {
	r := Remedy{Air: process.DryingAir}
	if m.Drying.Gate == DryFirst {
		r.Air = m.Drying.Air
	}
	course, err := m.Pile.Dries(r.Air).CourseFrom(lot, month, longestRemedy.Hours(), m.Pile.DriesFrom(warmth))
	if err != nil {
		return r, err
	}
	hours, ok := release.Dry(course.MoistureAt, m.Screening.Settings.MoistureLimit, longestRemedy.Hours())
	r.OK, r.Days, r.Reached = ok, durationOf(hours).Days(), course.MoistureAt(hours)
	return r, nil
}
