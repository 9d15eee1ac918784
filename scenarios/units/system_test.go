package units

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Values are shown in the units of the trade, rounded to what they are worth.
func TestFormat(t *testing.T) {
	for _, c := range []struct {
		value  float64
		dim    Dimension
		us, si string
	}{
		{18143.6948, Mass, "20 short ton", "18.1 t"},
		{45.359237, Mass, "100 lb", "45.4 kg"},
		{0, Mass, "0 short ton", "0 t"},
		{-18143.6948, Mass, "-20 short ton", "-18.1 t"},
		{30.58219431936, Volume, "40 yd3", "30.6 m3"},
		{3.785411784e6, Volume, "4,951,000 yd3", "3,785,000 m3"},
		{652.6, MassPerVolume, "1,100 lb/yd3", "653 kg/m3"},
		{0.18, Fraction, "18 %", "18 %"},
		{0.98765, Fraction, "98.8 %", "98.8 %"},
		{0.9999, Fraction, "100 %", "100 %"},
		{2.5, Ratio, "2.5", "2.5"},
		{12 * 86400, Duration, "12 day", "12 day"},
		{4500, Duration, "1.25 h", "1.25 h"},
		{240, Duration, "4 min", "4 min"},
		{55, Temperature, "131 °F", "55 °C"},
		{0, Temperature, "32 °F", "0 °C"},
		{5, TemperatureDifference, "9 °F", "5 °C"},
		{1440, VolumePerAreaTime, "3.28 cfm/ft2", "60 m3/m2·h"},
		{0.03, AnnualRate, "3 %/year", "3 %/year"},
		{1234567, Money, "1,235,000 USD", "1,235,000 USD"},
		{0.457782, MoneyPerVolume, "0.35 USD/yd3", "0.458 USD/m3"},
		{0.12 / 3600, MoneyPerEnergy, "0.12 USD/kWh", "0.12 USD/kWh"},
		{math.NaN(), Mass, "n/a short ton", "n/a t"},
	} {
		if got := Format(c.value, c.dim, US); got != c.us {
			t.Errorf("Format(%v, %v, US) = %q, want %q", c.value, c.dim, got, c.us)
		}
		if got := Format(c.value, c.dim, SI); got != c.si {
			t.Errorf("Format(%v, %v, SI) = %q, want %q", c.value, c.dim, got, c.si)
		}
	}
}

// The rounding rule at its edges, and what cannot be rounded.
func TestFormatNumber(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{0, "0"},
		{math.Copysign(0, -1), "0"},
		{999.4, "999"},
		{999.6, "1,000"},
		{1234.4, "1,234"},
		{12345, "12,340"},
		{-98765, "-98,760"},
		{0.00012345, "0.000123"},
		{0.00001, "1.00e-05"},
		{1e15, "1.00e+15"},
		{math.NaN(), "n/a"},
		{math.Inf(1), "+infinite"},
		{math.Inf(-1), "-infinite"},
	} {
		if got := FormatNumber(c.x); got != c.want {
			t.Errorf("FormatNumber(%v) = %q, want %q", c.x, got, c.want)
		}
	}
}

// More digits are shown on demand, with trailing zeros left out all the same.
func TestFormatDigits(t *testing.T) {
	if got := FormatDigits(30000, Mass, US, 6); got != "33.0693 short ton" {
		t.Errorf("got %q", got)
	}
	if got := FormatDigits(30000, Mass, SI, 6); got != "30 t" {
		t.Errorf("got %q", got)
	}
}

// The endings of field names are part of the output format: this list is the
// promise that they stay.
func TestFieldSuffix(t *testing.T) {
	want := map[Dimension][2]string{
		Dimensionless:         {"", ""},
		Ratio:                 {"", ""},
		Fraction:              {"_percent", "_percent"},
		Mass:                  {"_short_ton", "_t"},
		ScaleMass:             {"_lb", "_kg"},
		Volume:                {"_yd3", "_m3"},
		Length:                {"_ft", "_m"},
		Area:                  {"_ft2", "_m2"},
		Duration:              {"_day", "_day"},
		Temperature:           {"_deg_f", "_deg_c"},
		TemperatureDifference: {"_deg_f", "_deg_c"},
		MassPerTime:           {"_short_ton_per_day", "_t_per_day"},
		MassTime:              {"_short_ton_day", "_t_day"},
		MassPerVolume:         {"_lb_per_yd3", "_kg_per_m3"},
		VolumePerTime:         {"_yd3_per_day", "_m3_per_day"},
		AirFlow:               {"_cfm", "_m3_per_h"},
		VolumePerAreaTime:     {"_cfm_per_ft2", "_m3_per_m2_h"},
		VolumePerMassTime:     {"_cfm_per_short_ton", "_m3_per_t_h"},
		Power:                 {"_kw", "_kw"},
		Energy:                {"_kwh", "_kwh"},
		EnergyPerMass:         {"_btu_per_lb", "_kj_per_kg"},
		PowerPerTemperature:   {"_btu_per_h_deg_f", "_w_per_k"},
		Rate:                  {"_per_day", "_per_day"},
		AnnualRate:            {"_percent_per_year", "_percent_per_year"},
		Money:                 {"_usd", "_usd"},
		MoneyPerMass:          {"_usd_per_short_ton", "_usd_per_t"},
		MoneyPerVolume:        {"_usd_per_yd3", "_usd_per_m3"},
		MoneyPerTime:          {"_usd_per_year", "_usd_per_year"},
		MoneyPerHour:          {"_usd_per_h", "_usd_per_h"},
		MoneyPerEnergy:        {"_usd_per_kwh", "_usd_per_kwh"},
		VolumePerYear:         {"_yd3_per_year", "_m3_per_year"},
		Years:                 {"_year", "_year"},
		MassPerArea:           {"_lb_per_ft2", "_kg_per_m2"},
		MassPerEnergy:         {"_lb_per_kwh", "_kg_per_kwh"},
		MassPerLiquid:         {"_lb_per_gal", "_kg_per_l"},
		Liquid:                {"_gal", "_l"},
		MoneyPerLiquid:        {"_usd_per_gal", "_usd_per_l"},
	}
	for _, d := range dimensions {
		if got := [2]string{FieldSuffix(d, US), FieldSuffix(d, SI)}; got != want[d] {
			t.Errorf("suffixes of %v: %q, want %q", d, got, want[d])
		}
	}
}

// Every example that a message gives is one that Parse accepts.
func TestExamplesParse(t *testing.T) {
	for _, d := range dimensions {
		for _, example := range strings.Split(d.Example(), " or ") {
			if _, err := Parse(example, d); err != nil {
				t.Errorf("%v: example %q: %v", d, example, err)
			}
		}
	}
}

var (
	dimensions = func() (all []Dimension) {
		for i := range dimensionTable {
			all = append(all, Dimension(i))
		}
		return all
	}()
	anyDimension = rapid.SampledFrom(dimensions)
	anySystem    = rapid.SampledFrom([]System{US, SI})
)

// A value converted for showing, written with all its digits and read again is
// the same value: the labels are read back, and both directions use one
// factor.
func TestConvertRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, s := anyDimension.Draw(t, "dimension"), anySystem.Draw(t, "system")
		value := rapid.Float64Range(-1e9, 1e9).Draw(t, "value")
		shown, label := Convert(value, d, s)
		text := strconv.FormatFloat(shown, 'g', -1, 64) + " " + label
		back, err := Parse(text, d)
		if err != nil {
			t.Fatalf("Parse(%q): %v", text, err)
		}
		// An offset scale loses digits near its zero, so allow for 1e3 units.
		if math.Abs(back-value) > 1e-14*(math.Abs(value)+1e3*math.Abs(bases[d].offset+32)) {
			t.Fatalf("%v became %q and then %v", value, text, back)
		}
	})
}

// What Format writes, Parse reads, to the digits shown: three mean at most
// half a percent.
func TestFormatRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, s := anyDimension.Draw(t, "dimension"), anySystem.Draw(t, "system")
		value := math.Pow(10, rapid.Float64Range(-6, 9).Draw(t, "exponent"))
		text := Format(value, d, s)
		back, err := Parse(text, d)
		if err != nil {
			t.Fatalf("Parse(%q): %v", text, err)
		}
		tolerance := 0.00501 * value
		if d == Temperature && s == US {
			tolerance += 0.1 // 32 °F come on top, rounded with the rest
		}
		if math.Abs(back-value) > tolerance {
			t.Fatalf("%v became %q and then %v", value, text, back)
		}
	})
}

// The same quantity in any unit of its dimension is the same value: pounds and
// short tons, feet and yards, agree through their definitions.
func TestUnitsAgree(t *testing.T) {
	for _, c := range []struct {
		a, b string
		dim  Dimension
	}{
		{"2000 lb", "1 short ton", Mass},
		{"2240 lb", "1 long ton", Mass},
		{"27 ft3", "1 yd3", Volume},
		{"231 in·in·in", "1 gal", Volume},
		{"43,560 ft2", "1 acre", Area},
		{"3 ft", "1 yd", Length},
		{"5280 ft", "1 mi", Length},
		{"1 ft3/min", "1 cfm", AirFlow},
		{"1440 gpd", "1 gpm", VolumePerTime},
		{"3600 kJ", "1 kWh", Energy},
		{"212 °F", "373.15 K", Temperature},
	} {
		a, errA := Parse(c.a, c.dim)
		b, errB := Parse(c.b, c.dim)
		if errA != nil || errB != nil || math.Abs(a-b) > 1e-13*b {
			t.Errorf("%s = %v (%v), %s = %v (%v)", c.a, a, errA, c.b, b, errB)
		}
	}
}

// ParseSystem reads what String writes, and refuses the rest.
func TestParseSystem(t *testing.T) {
	for _, s := range []System{US, SI} {
		if got, err := ParseSystem(s.String()); err != nil || got != s {
			t.Errorf("ParseSystem(%q) = %v, %v", s.String(), got, err)
		}
	}
	if got, err := ParseSystem("SI"); err != nil || got != SI {
		t.Errorf("capitals: %v, %v", got, err)
	}
	if _, err := ParseSystem("imperial"); err == nil {
		t.Error("imperial was accepted")
	}
}

// One of the base unit of a dimension is one.
func TestBase(t *testing.T) {
	for _, d := range dimensions {
		if dimensionTable[d].base == "" {
			continue
		}
		if got, err := Parse("1 "+dimensionTable[d].base, d); err != nil || got != 1 {
			t.Errorf("1 %s is %v, %v", dimensionTable[d].base, got, err)
		}
	}
}
