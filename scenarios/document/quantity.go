package document

import (
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// Quantity says how a number of an answer converts: its dimension, and the
// factor from the answer's unit to the dimension's base unit.
type Quantity struct {
	Dim    units.Dimension
	ToBase float64
}

// Quantities of answers, with the unit in which an answer holds them.
var (
	Count       = Quantity{units.Dimensionless, 1}
	Ratio       = Quantity{units.Ratio, 1}
	Share       = Quantity{units.Fraction, 1}                            // 0…1
	Percent     = Quantity{units.Fraction, 0.01}                         // %
	Mass        = Quantity{units.Mass, 1}                                // kg
	Volume      = Quantity{units.Volume, 1}                              // m3
	Days        = Quantity{units.Duration, calendar.SecondsPerDay}       // days
	Hours       = Quantity{units.Duration, 3600}                         // h
	Energy      = Quantity{units.Energy, 1}                              // kJ
	EnergyKWh   = Quantity{units.Energy, 3600}                           // kWh
	MassPerDay  = Quantity{units.MassPerTime, 1}                         // kg/day
	MassDays    = Quantity{units.MassTime, 1}                            // kg × days
	Density     = Quantity{units.MassPerVolume, 1}                       // kg/m3
	Degrees     = Quantity{units.Temperature, 1}                         // °C
	Difference  = Quantity{units.TemperatureDifference, 1}               // °C
	Length      = Quantity{units.Length, 1}                              // m
	Area        = Quantity{units.Area, 1}                                // m2
	AirFlow     = Quantity{units.AirFlow, 24}                            // m3/h
	AirPerDry   = Quantity{units.VolumePerMassTime, 0.024}               // m3/h per t
	BedLoading  = Quantity{units.VolumePerAreaTime, 24}                  // m3/h per m2
	Money       = Quantity{units.Money, 1}                               // USD
	Millions    = Quantity{units.Money, 1e-6}                            // USD, shown in millions
	MoneyPerDry = Quantity{units.MoneyPerMass, 1}                        // USD/kg
	MoneyPerVol = Quantity{units.MoneyPerVolume, 1}                      // USD/m3
	MoneyAYear  = Quantity{units.MoneyPerTime, 1 / calendar.DaysPerYear} // USD/year
	VolumeAYear = Quantity{units.VolumePerYear, 1}                       // m3/year
	Years       = Quantity{units.Years, 1}                               // years
	MassPerArea = Quantity{units.MassPerArea, 1}                         // kg/m2
	AnnualRate  = Quantity{units.AnnualRate, 1}                          // 1/year
	Liquid      = Quantity{units.Liquid, 1}                              // m3 of fuel
	MoneyPerLiq = Quantity{units.MoneyPerLiquid, 1}                      // USD/m3 of fuel
	MoneyPerKWh = Quantity{units.MoneyPerEnergy, 1.0 / 3600}             // USD/kWh
	MoneyPerH   = Quantity{units.MoneyPerHour, 1}                        // USD/h
)

// In returns v in the unit that a system shows.
func (q Quantity) In(v float64, sys units.System) float64 {
	shown, _ := units.Convert(v*q.ToBase, q.Dim, sys)
	return shown
}

// Label returns the unit as tables write it, such as "short ton".
func (q Quantity) Label(sys units.System) string {
	_, label := units.Convert(0, q.Dim, sys)
	return label
}

// Suffix returns the unit as names in files end in it, such as "_short_ton".
func (q Quantity) Suffix(sys units.System) string { return units.FieldSuffix(q.Dim, sys) }

// ScaleMass is a mass as a scale shows it: in a unit small enough to be read off
// in whole numbers, kg.
var ScaleMass = Quantity{units.ScaleMass, 1}
