package units

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// nearly reports whether two values agree to a few units in the last place.
func nearly(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 4e-16*math.Max(math.Abs(a), math.Abs(b))
}

// Every factor is the exact one. The definitions (lb 0.45359237 kg, ft
// 0.3048 m, yd3 0.764554857984 m3, US gallon 3.785411784 L, short ton 2,000
// lb, long ton 2,240 lb, acre 43,560 ft2) are those of NIST Handbook 44
// Appendix C and NIST SP 811, from memory; the other numbers are arithmetic on
// them.
func TestParseFactors(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		want float64
	}{
		{"18 %", Fraction, 0.18},
		{"18%", Fraction, 0.18},
		{"1.9 percent", Fraction, 0.019},
		{"19 g/kg", Fraction, 0.019},
		{"50 ppm", Fraction, 50e-6},
		{"2.5", Ratio, 2.5},
		{"2.5 yd3/yd3", Ratio, 2.5},
		{"1.25", Dimensionless, 1.25},
		{"-3", Dimensionless, -3},
		{"+3", Dimensionless, 3},
		{".5", Dimensionless, 0.5},
		{"1e3", Dimensionless, 1000},

		{"1 kg", Mass, 1},
		{"18 t", Mass, 18000},
		{"18 tonnes", Mass, 18000},
		{"18 metric tons", Mass, 18000},
		{"1 Mg", Mass, 1000},
		{"250 mg", Mass, 250e-6},
		{"500 g", Mass, 0.5},
		{"1 lb", Mass, 0.45359237},
		{"100 lbs", Mass, 45.359237},
		{"16 oz", Mass, 0.45359237},
		{"1 short ton", Mass, 907.18474},
		{"20 short tons", Mass, 18143.6948},
		{"1 long ton", Mass, 1016.0469088},
		{"-5 kg", Mass, -5},
		{"−5 kg", Mass, -5},

		{"6.5 m3", Volume, 6.5},
		{"6.5 m³", Volume, 6.5},
		{"6.5 m^3", Volume, 6.5},
		{"6.5 cubic metres", Volume, 6.5},
		{"1 yd3", Volume, 0.764554857984},
		{"40 yd³", Volume, 30.58219431936},
		{"40 cubic yards", Volume, 30.58219431936},
		{"40 cu yd", Volume, 30.58219431936},
		{"40 CY", Volume, 30.58219431936},
		{"1 ft3", Volume, 0.028316846592},
		{"1 gal", Volume, 0.003785411784},
		{"1,000 gallons", Volume, 3.785411784},
		{"2 MG", Volume, 7570.823568},
		{"250 L", Volume, 0.25},

		{"1 ft", Length, 0.3048},
		{"8 feet", Length, 2.4384},
		{"12 in", Length, 0.3048},
		{"1 yd", Length, 0.9144},
		{"1 mile", Length, 1609.344},
		{"25 mm", Length, 0.025},
		{"1 ft2", Area, 0.09290304},
		{"1 sq yd", Area, 0.83612736},
		{"1 acre", Area, 4046.8564224},
		{"2 ha", Area, 20000},

		{"12 day", Duration, 12 * 86400},
		{"12 d", Duration, 12 * 86400},
		{"1.5 hours", Duration, 5400},
		{"45 min", Duration, 2700},
		{"30 s", Duration, 30},
		{"2 weeks", Duration, 14 * 86400},
		{"1 year", Duration, 365.25 * 86400},
		{"12 months", Duration, 365.25 * 86400},

		{"14 °C", Temperature, 14},
		{"14 C", Temperature, 14},
		{"14 deg C", Temperature, 14},
		{"14℃", Temperature, 14},
		{"32 °F", Temperature, 0},
		{"57 °F", Temperature, 125.0 / 9},
		{"-40 F", Temperature, -40},
		{"273.15 K", Temperature, 0},
		{"9 °F", TemperatureDifference, 5},
		{"5 K", TemperatureDifference, 5},

		{"2.1 t/d", MassPerTime, 2100},
		{"6 short tons per day", MassPerTime, 5443.10844},
		{"1 kg/h", MassPerTime, 24},
		{"1,100 lb/yd3", MassPerVolume, 1100 * 0.45359237 / 0.764554857984},
		{"650 kg/m3", MassPerVolume, 650},
		{"300 mg/L", MassPerVolume, 0.3},
		{"30 m3/day", VolumePerTime, 30},
		{"1 MGD", VolumePerTime, 3785.411784},
		{"1 gpm", VolumePerTime, 0.003785411784 * 1440},
		{"100 m3/h", AirFlow, 2400},
		{"1 cfm", AirFlow, 0.028316846592 * 1440},
		{"60 m3/m2·h", VolumePerAreaTime, 1440},
		{"60 m3/(m2·h)", VolumePerAreaTime, 1440},
		{"60 m3/m2/h", VolumePerAreaTime, 1440},
		{"60 m3/m2*h", VolumePerAreaTime, 1440},
		{"10 m3/h per t", VolumePerMassTime, 0.24},

		{"15 kW", Power, 15},
		{"1 hp", Power, 0.74569987158227},
		{"24 kWh/day", Power, 1},
		{"120 kWh", Energy, 432000},
		{"120 kW·h", Energy, 432000},
		{"1 Btu", Energy, 1.05505585262},
		{"23 MJ/kg", EnergyPerMass, 23000},
		{"1 Btu/lb", EnergyPerMass, 2.326},
		{"30 W/K", PowerPerTemperature, 0.03},
		{"1 W/°F", PowerPerTemperature, 0.0018},
		{"0.196 /day", Rate, 0.196},
		{"0.196 1/day", Rate, 0.196},
		{"5 %/day", Rate, 0.05},
		{"3 %/year", AnnualRate, 0.03},
		{"3 % per year", AnnualRate, 0.03},
		{"0.25 %/month", AnnualRate, 0.03},

		{"42,000 USD", Money, 42000},
		{"$1,234,567.89", Money, 1234567.89},
		{"-$5", Money, -5},
		{"55 USD/short ton", MoneyPerMass, 55 / 907.18474},
		{"60 $/t", MoneyPerMass, 0.06},
		{"0.35 USD/yd3", MoneyPerVolume, 0.35 / 0.764554857984},
		{"0.35 /yd3", MoneyPerVolume, 0.35 / 0.764554857984},
		{"$0.35/yd3", MoneyPerVolume, 0.35 / 0.764554857984},
		{"365.25 USD/year", MoneyPerTime, 1},
		{"38 USD/h", MoneyPerHour, 38},
		{"0.12 USD/kWh", MoneyPerEnergy, 0.12 / 3600},
	} {
		got, err := Parse(c.text, c.dim)
		if err != nil {
			t.Errorf("Parse(%q): %v", c.text, err)
		} else if !nearly(got, c.want) {
			t.Errorf("Parse(%q) = %.17g, want %.17g", c.text, got, c.want)
		}
	}
}

// Each mistake gets its own answer, which says what to write instead.
func TestParseErrors(t *testing.T) {
	for _, c := range []struct {
		text string
		dim  Dimension
		want string
	}{
		{"", Mass, `nothing is written where a mass is needed; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"  ", Ratio, `nothing is written where a ratio is needed; write a ratio without a unit, e.g. 2.5`},
		{"20", Mass, `"20" has no unit, and a mass needs one; write a mass with its unit, e.g. 20 short ton or 20 t`},
		{"0.18", Fraction, `"0.18" has no unit, and a fraction needs one; write it in percent: 18 %`},
		{"18", Fraction, `"18" has no unit, and a fraction needs one; write it in percent: 18 %`},
		{"20 ton", Mass, `"ton" can mean three masses; which one: short ton (2,000 lb), metric ton (t, 1,000 kg) or long ton (2,240 lb)?`},
		{"20 Tons/day", MassPerTime, `"Tons" can mean three masses; which one: short ton (2,000 lb), metric ton (t, 1,000 kg) or long ton (2,240 lb)?`},
		{"20 dry short ton", Mass, `"dry short ton" names a basis, and a unit has none; the field says whether dry or wet is meant; write "short ton"`},
		{"20 m3", Mass, `"20 m3" is a volume, but a mass is needed; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"1,100 lb/yd3", Mass, `"1,100 lb/yd3" is a mass per volume, but a mass is needed; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"40 yards", Volume, `"40 yards" is a length, but a volume is needed; write a volume with its unit, e.g. 40 yd3 or 30 m3`},
		{"3 %", AnnualRate, `"3 %" is a fraction, but a yearly rate is needed; write a yearly rate with its unit, e.g. 3 %/year`},
		{"5 kg", Dimensionless, `"5 kg" is a mass, but a number is needed; write a number without a unit, e.g. 1.25`},
		{"250 %", Ratio, `"250 %" is a fraction, but a ratio is needed; write a ratio without a unit, e.g. 2.5`},
		{"5 kg·kg", Mass, `"5 kg·kg" is another kind of quantity, but a mass is needed; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"20 shrt ton", Mass, `no unit is called "shrt ton"; did you mean short ton?`},
		{"40 yrd3", Volume, `no unit is called "yrd3"; did you mean yd3?`},
		{"6 T", Mass, `no unit is called "T"; did you mean t?`},
		{"6 cubits", Length, `no unit is called "cubits"; write a length with its unit, e.g. 6 ft or 6 m`},
		{"40 EUX/yd3", MoneyPerVolume, `no unit is called "EUX"; did you mean EUR?`},
		{"40 cad/yd3", MoneyPerVolume, `no unit is called "cad"; did you mean CAD?`},
		{"40 CAX", Money, `no unit is called "CAX"; did you mean CAD?`},
		{"40 QQQ", Money, `no unit is called "QQQ"; write an amount of money with its unit, e.g. 40 USD`},
		{"EUR 40", Money, `"EUR 40" does not start with a number; write an amount of money with its unit, e.g. 42,000 USD`},
		{"40 EUR", Mass, `"40 EUR" is an amount of money, but a mass is needed; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"5 5 kg", Mass, `a second number, "5 kg", stands where a unit should; write one number, then its unit`},
		{"10-20 day", Duration, `a second number, "-20 day", stands where a unit should; write one number, then its unit`},
		{"1:2.5", Ratio, `no unit is called ":2.5"; write a ratio without a unit, e.g. 2.5`},
		{"5 kg/", MassPerVolume, `a unit is missing beside "/" or "·"; write a unit such as lb/yd3`},
		{"kg 5", Mass, `"kg 5" does not start with a number; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"NaN kg", Mass, `"NaN kg" does not start with a number; write a mass with its unit, e.g. 20 short ton or 18 t`},
		{"Inf", Ratio, `"Inf" does not start with a number; write a ratio without a unit, e.g. 2.5`},
		{"1,10 kg", Mass, `"1,10" is not a number this program reads; use a comma only between groups of three digits, and a point for decimals: 1,234.5`},
		{"1.100,5 kg", Mass, `"1.100,5" is not a number this program reads; use a comma only between groups of three digits, and a point for decimals: 1,234.5`},
		{"0,35 /yd3", MoneyPerVolume, `"0,35" is not a number this program reads; use a comma only between groups of three digits, and a point for decimals: 1,234.5`},
		{"1e400", Ratio, `"1e400" is too large a number; check its exponent`},
		{"1e308 t", Mass, `"1e308 t" is too large a number; check its exponent and unit`},
	} {
		_, err := Parse(c.text, c.dim)
		var e *Error
		if !errors.As(err, &e) {
			t.Errorf("Parse(%q) = %v, want an *Error", c.text, err)
		} else if e.Error() != c.want {
			t.Errorf("Parse(%q):\n got %s\nwant %s", c.text, e, c.want)
		}
	}
}

// The units of a message follow the units of the text it answers.
func TestSystemOf(t *testing.T) {
	for text, want := range map[string]System{
		"20 short ton": US, "1,100 lb/yd3": US, "57 °F": US, "650 kg/m3": SI, "18 %": SI, "": SI, "x": SI,
	} {
		if got := SystemOf(text); got != want {
			t.Errorf("SystemOf(%q) = %v, want %v", text, got, want)
		}
	}
}

// Whatever is typed, Parse returns a finite value or a complete error, and
// does not panic.
// What a hint proposes is read: every number in every unit that it names, for a number
// without a unit or with one that does not exist, and what it says of a basis.
func TestWhatIsProposedIsRead(t *testing.T) {
	for _, dim := range Dimensions() {
		for _, text := range []string{"12", "0.5 qq", "1,250 cubits", "3.2:1", "7 dry ton", "4 wet lb"} {
			_, err := Parse(text, dim)
			if err == nil {
				continue // a bare number where that is right
			}
			_, proposed, found := strings.Cut(err.(*Error).Hint, "e.g. ")
			if !found {
				_, proposed, found = strings.Cut(err.(*Error).Hint, "without a unit: ")
			}
			if !found {
				continue
			}
			for _, one := range strings.FieldsFunc(strings.ReplaceAll(proposed, " or ", "; "), func(r rune) bool { return r == ';' }) {
				for one := range strings.SplitSeq(one, ", ") {
					if _, err := Parse(one, dim); err != nil {
						t.Errorf("%q as %v: %q is proposed, and %v", text, dim, one, err)
					}
				}
			}
		}
	}
	for _, unit := range []string{"ton", "tons", "t", "lb", "short ton"} {
		_, err := Parse("3 dry "+unit, Mass)
		proposed := strings.Split(err.(*Error).Hint, "\"")
		if len(proposed) < 2 {
			t.Fatalf("dry %s: %v", unit, err)
		}
		if _, err := Parse("3 "+proposed[1], Mass); err != nil {
			t.Errorf("dry %s: %q is proposed, and %v", unit, proposed[1], err)
		}
	}
}

// Nothing is nothing in any unit, but of a temperature 0 says nothing without one.
func TestBareZero(t *testing.T) {
	for _, dim := range Dimensions() {
		for _, text := range []string{"0", "0.0", "-0"} {
			v, err := Parse(text, dim)
			if got := err == nil; got == (dim == Temperature) || v != 0 {
				t.Errorf("%s as %v: %v, %v", text, dim, v, err)
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"18 %", "1,100 lb/yd3", "$0.35/yd3", "60 m3/(m2·h)", "-40 °F", "5 (°F)", "1e400", "/", "5 /", "5 1/1/1", "٣ kg", "\xff"} {
		f.Add(seed, 3)
	}
	f.Fuzz(func(t *testing.T, text string, pick int) {
		dim := Dimension(uint(pick) % uint(len(dimensionTable)))
		value, err := Parse(text, dim)
		var e *Error
		switch {
		case err == nil && (math.IsNaN(value) || math.IsInf(value, 0)):
			t.Errorf("Parse(%q, %v) = %v", text, dim, value)
		case err != nil && !errors.As(err, &e):
			t.Errorf("Parse(%q, %v) returned a %T", text, dim, err)
		case err != nil && (e.Problem == "" || e.Hint == ""):
			t.Errorf("Parse(%q, %v) returned half an error: %+v", text, dim, e)
		}
	})
}
