package units

import (
	"strings"

	"loamcast/sim/calendar"
)

// exponents holds the powers of the base quantities in a unit, in the order
// mass, length, time, temperature, money.
type exponents [5]int

var (
	mass     = exponents{0: 1}
	length   = exponents{1: 1}
	area     = exponents{1: 2}
	volume   = exponents{1: 3}
	flow     = exponents{1: 3, 2: -1}
	duration = exponents{2: 1}
	degree   = exponents{3: 1}
	money    = exponents{4: 1}
	energy   = exponents{0: 1, 1: 2, 2: -2}
	power    = exponents{0: 1, 1: 2, 2: -3}
)

// unit is one unit that may be written by name. A value v in it is
// (v − offset)·num/den in kg, m, s, °C and money. Factors are held as two
// numbers so that the common ones are exact: a percent is 1/100, a pound
// 45359237/1e8 kg.
type unit struct {
	names    []string // the first is the one we write
	num, den float64
	powers   exponents
	offset   float64
	us       bool // belongs to US customary units
	percent  bool // a part of one: % or ppm
	months   int  // of the calendar, where a [calendar.Span] is counted in it
	currency string
}

// The exact factors (lb 0.45359237 kg, ft 0.3048 m, US gallon 231 in3 =
// 3.785411784 L, and what follows from them) are those of NIST Handbook 44
// Appendix C and NIST SP 811, from memory. The British thermal unit is the
// International Table one, 1,055.05585262 J; the horsepower 550 ft·lbf/s,
// 745.69987158227 W (both NIST SP 811, from memory).
var unitTable = append([]unit{
	{names: []string{"%", "percent", "pct"}, num: 1, den: 100, percent: true},
	{names: []string{"ppm"}, num: 1, den: 1e6, percent: true},

	{names: []string{"kg", "kilogram"}, num: 1, den: 1, powers: mass},
	{names: []string{"t", "metric ton", "tonne", "Mg", "megagram"}, num: 1000, den: 1, powers: mass},
	{names: []string{"g", "gram"}, num: 1, den: 1e3, powers: mass},
	{names: []string{"mg", "milligram"}, num: 1, den: 1e6, powers: mass},
	{names: []string{"lb", "pound", "lbm"}, num: 45359237, den: 1e8, powers: mass, us: true},
	{names: []string{"oz", "ounce"}, num: 45359237, den: 16e8, powers: mass, us: true},
	{names: []string{"short ton", "US ton"}, num: 90718474, den: 1e5, powers: mass, us: true},
	{names: []string{"long ton"}, num: 10160469088, den: 1e7, powers: mass},

	{names: []string{"m3", "cubic meter", "cubic metre"}, num: 1, den: 1, powers: volume},
	{names: []string{"L", "l", "liter", "litre"}, num: 1, den: 1e3, powers: volume},
	{names: []string{"mL", "milliliter", "millilitre"}, num: 1, den: 1e6, powers: volume},
	{names: []string{"yd3", "cubic yard", "cu yd", "cy"}, num: 764554857984, den: 1e12, powers: volume, us: true},
	{names: []string{"ft3", "cubic foot", "cubic feet", "cu ft", "cf"}, num: 28316846592, den: 1e12, powers: volume, us: true},
	{names: []string{"gal", "gallon", "US gal", "US gallon"}, num: 3785411784, den: 1e12, powers: volume, us: true},
	{names: []string{"MG", "million gallon", "million gal"}, num: 3785411784, den: 1e6, powers: volume, us: true},

	{names: []string{"m", "meter", "metre"}, num: 1, den: 1, powers: length},
	{names: []string{"km", "kilometer", "kilometre"}, num: 1000, den: 1, powers: length},
	{names: []string{"cm", "centimeter", "centimetre"}, num: 1, den: 100, powers: length},
	{names: []string{"mm", "millimeter", "millimetre"}, num: 1, den: 1000, powers: length},
	{names: []string{"ft", "foot", "feet"}, num: 3048, den: 1e4, powers: length, us: true},
	{names: []string{"in", "inch", "inches"}, num: 254, den: 1e4, powers: length, us: true},
	{names: []string{"yd", "yard"}, num: 9144, den: 1e4, powers: length, us: true},
	{names: []string{"mi", "mile"}, num: 1609344, den: 1e3, powers: length, us: true},

	{names: []string{"m2", "square meter", "square metre", "sq m"}, num: 1, den: 1, powers: area},
	{names: []string{"ha", "hectare"}, num: 1e4, den: 1, powers: area},
	{names: []string{"ft2", "square foot", "square feet", "sq ft"}, num: 9290304, den: 1e8, powers: area, us: true},
	{names: []string{"yd2", "square yard", "sq yd"}, num: 83612736, den: 1e8, powers: area, us: true},
	{names: []string{"acre"}, num: 40468564224, den: 1e7, powers: area, us: true},

	{names: []string{"day", "d"}, num: calendar.SecondsPerDay, den: 1, powers: duration},
	{names: []string{"h", "hour", "hr"}, num: 3600, den: 1, powers: duration},
	{names: []string{"min", "minute"}, num: 60, den: 1, powers: duration},
	{names: []string{"s", "second", "sec"}, num: 1, den: 1, powers: duration},
	{names: []string{"week", "wk"}, num: 7 * calendar.SecondsPerDay, den: 1, powers: duration},
	{names: []string{"month", "mo"}, num: calendar.SecondsPerYear, den: 12, powers: duration, months: 1},
	{names: []string{"year", "yr", "y"}, num: calendar.SecondsPerYear, den: 1, powers: duration, months: calendar.MonthsPerYear},

	{names: []string{"°C", "C", "deg C", "degC", "celsius"}, num: 1, den: 1, powers: degree},
	{names: []string{"°F", "F", "deg F", "degF", "fahrenheit"}, num: 5, den: 9, powers: degree, offset: 32, us: true},
	{names: []string{"K", "kelvin"}, num: 1, den: 1, powers: degree, offset: 273.15},

	{names: []string{"cfm", "scfm"}, num: 28316846592, den: 60e12, powers: flow, us: true},
	{names: []string{"gpm"}, num: 3785411784, den: 60e12, powers: flow, us: true},
	{names: []string{"gpd"}, num: 3785411784, den: calendar.SecondsPerDay * 1e12, powers: flow, us: true},
	{names: []string{"MGD"}, num: 3785411784, den: calendar.SecondsPerDay * 1e6, powers: flow, us: true},

	{names: []string{"kJ", "kilojoule"}, num: 1e3, den: 1, powers: energy},
	{names: []string{"J", "joule"}, num: 1, den: 1, powers: energy},
	{names: []string{"MJ", "megajoule"}, num: 1e6, den: 1, powers: energy},
	{names: []string{"GJ", "gigajoule"}, num: 1e9, den: 1, powers: energy},
	{names: []string{"kWh", "kilowatt hour", "kilowatt-hour"}, num: 3.6e6, den: 1, powers: energy},
	{names: []string{"MWh", "megawatt hour", "megawatt-hour"}, num: 3.6e9, den: 1, powers: energy},
	{names: []string{"Btu"}, num: 105505585262, den: 1e8, powers: energy, us: true},

	{names: []string{"kW", "kilowatt"}, num: 1e3, den: 1, powers: power},
	{names: []string{"W", "watt"}, num: 1, den: 1, powers: power},
	{names: []string{"MW", "megawatt"}, num: 1e6, den: 1, powers: power},
	{names: []string{"hp", "horsepower"}, num: 74569987158227, den: 1e11, powers: power, us: true},
}, moneyUnits()...)

// exactNames and foldedNames find a unit by its name as written and without
// regard to capitals. Only names of two letters or more may change capitals,
// and only where one unit answers to the result: "mg", "Mg" and "MG" differ.
var exactNames, foldedNames = indexNames()

func indexNames() (exact, folded map[string]*unit) {
	exact, folded = map[string]*unit{}, map[string]*unit{}
	for i := range unitTable {
		u := &unitTable[i]
		for _, name := range u.names {
			exact[name] = u
			if len(name) < 2 || u.currency != "" && name == u.currency && signs[name] == nil {
				continue // "kgs" are kilograms, and KGS are soms
			}
			lower := strings.ToLower(name)
			if other, taken := folded[lower]; taken && other != u {
				folded[lower] = nil
			} else {
				folded[lower] = u
			}
		}
	}
	return exact, folded
}

// findUnit returns the unit of that name, in the singular or plural, or nil.
func findUnit(name string) *unit {
	for _, candidate := range []string{name, strings.TrimSuffix(name, "s")} {
		if u := exactNames[candidate]; u != nil {
			return u
		}
		if u := foldedNames[strings.ToLower(candidate)]; u != nil {
			return u
		}
		if len(name) < 3 {
			break // "ms" is not the plural of "m"
		}
	}
	return nil
}
