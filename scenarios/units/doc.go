// Package units reads quantities that people write with their units, such as
// "1,100 lb/yd3", "18 %" or "0.35 USD/yd3", and writes them back in US
// customary or SI units.
//
// It is not a general library of measurement: it knows the units a composting
// plant's planner meets, refuses words that mean two things ("ton"), and does
// no arithmetic with quantities. It says nothing about wet or dry basis, which
// the name of a field states, and does not check ranges, which the caller
// knows.
//
// Inside the program a quantity is a plain float64 in the base unit of its
// [Dimension]: kg, m3, m, m2, seconds for durations, °C, a fraction from 0 to
// 1, kJ, kW, USD. Money may be in any currency, one at a time, of which only the
// code is known ([System.With]); a base unit is then that currency's. Everything per
// time is per day (kg/day, m3/day, 1/day, USD/day), with two exceptions named for it: AnnualRate is per year and
// MoneyPerHour per hour. A year is 365.25 days, a month a twelfth of that.
// [Dimension.Base] gives the base unit of each.
package units
