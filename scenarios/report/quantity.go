package report

import (
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// quantity says how a number of the answer converts: its dimension, and the
// factor from the answer's unit to the dimension's base unit.
type quantity struct {
	dim    units.Dimension
	toBase float64
}

var (
	count      = quantity{units.Dimensionless, 1}
	ratio      = quantity{units.Ratio, 1}
	share      = quantity{units.Fraction, 1}
	mass       = quantity{units.Mass, 1}
	volume     = quantity{units.Volume, 1}
	days       = quantity{units.Duration, calendar.SecondsPerDay}
	energy     = quantity{units.Energy, 1}
	massPerDay = quantity{units.MassPerTime, 1}
)

// in returns v in the unit that the system shows.
func (q quantity) in(v float64, sys units.System) float64 {
	shown, _ := units.Convert(v*q.toBase, q.dim, sys)
	return shown
}

// label returns the unit as tables write it, such as "short ton".
func (q quantity) label(sys units.System) string {
	_, label := units.Convert(0, q.dim, sys)
	return label
}

// suffix returns the unit as field names write it, such as "_short_ton".
func (q quantity) suffix(sys units.System) string {
	return units.FieldSuffix(q.dim, sys)
}
