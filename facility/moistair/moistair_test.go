package moistair

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

const tablePath = "../../testdata/moistair/psychrolib.csv"

// TestAgainstIndependentLibrary shows moist air against an independent library
// (source and version in the file) over −20 to 80 °C, four humidities and two
// altitudes: every property within 0.0002 %, so that a digit off in any constant
// shows.
func TestAgainstIndependentLibrary(t *testing.T) {
	rows := readTable(t)
	worst := 0.0
	check := func(line int, name string, got, want float64) {
		off := math.Abs(got-want) / math.Abs(want)
		worst = math.Max(worst, off)
		if !(off <= 2e-6) {
			t.Errorf("row %d: %s %.6g, want %.6g", line, name, got, want)
		}
	}
	for i, r := range rows {
		altitude, temperature, rh := r[0], r[1], r[2]
		p := StandardPressure(altitude)
		w := HumidityRatio(temperature, rh, p)
		check(i, "pressure", p, r[3])
		check(i, "saturation pressure", SaturationPressure(temperature), r[4])
		check(i, "humidity ratio", w, r[5])
		if math.Abs(r[6]) > 20 { // it passes through zero
			check(i, "enthalpy", enthalpy(temperature, w), r[6])
		}
		check(i, "specific volume", SpecificVolume(temperature, w, p), r[7])
		check(i, "density", (1+w)/SpecificVolume(temperature, w, p), r[8])
	}
	t.Logf("%d rows, worst deviation %.4f %%", len(rows), 100*worst)
}

// enthalpy returns the enthalpy of moist air above dry air and liquid water at
// 0 °C, kJ per kg of dry air, from the constants that balances use.
func enthalpy(t, w float64) float64 { return DryAirHeat*t + w*(VaporisationAt+VapourHeat*t) }

func readTable(t *testing.T) [][]float64 {
	t.Helper()
	f, err := os.Open(tablePath)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	reader := csv.NewReader(f)
	reader.Comment = '#'
	records, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := make([][]float64, 0, len(records))
	for _, record := range records[1:] {
		row := make([]float64, len(record))
		for i, field := range record {
			if row[i], err = strconv.ParseFloat(field, 64); err != nil {
				t.Fatal(err)
			}
		}
		rows = append(rows, row)
	}
	if len(rows) != 168 {
		t.Fatalf("%d rows in %s, want 168", len(rows), tablePath)
	}
	return rows
}

// TestSaturatedHumidityRatio shows the saturated humidity ratio at sea level
// within 1 % of values derived by hand.
func TestSaturatedHumidityRatio(t *testing.T) {
	for _, c := range []struct{ temperature, want float64 }{
		{45, 0.0650}, {50, 0.0863}, {55, 0.1146}, {60, 0.1524}, {65, 0.2042},
	} {
		got := HumidityRatio(c.temperature, 1, 101325)
		if math.Abs(got/c.want-1) > 0.01 {
			t.Errorf("%g °C: %.4f, want %.4f", c.temperature, got, c.want)
		}
	}
}

// TestHeatRemovalAir shows the dry air that carries away the heat of 1 g of
// oxygen (14 kJ), entering at 20 °C and 60 % and leaving saturated, within 1 %
// of derived values.
func TestHeatRemovalAir(t *testing.T) {
	in := HumidityRatio(20, 0.6, 101325)
	for _, c := range []struct{ exit, want float64 }{
		{45, 81.8}, {50, 60.4}, {55, 45.0}, {60, 33.6}, {65, 25.1},
	} {
		out := HumidityRatio(c.exit, 1, 101325)
		got := 14000 / (enthalpy(c.exit, out) - enthalpy(20, in))
		if math.Abs(got/c.want-1) > 0.01 {
			t.Errorf("%g °C: %.1f g air per g O2, want %.1f", c.exit, got, c.want)
		}
	}
}

// TestVaporisation shows that vapour at t less water at t is the heat of
// vaporisation.
func TestVaporisation(t *testing.T) {
	for _, temperature := range []float64{0, 20, 60, 100} {
		vapour := enthalpy(temperature, 1) - DryAirHeat*temperature
		if got, want := Vaporisation(temperature), vapour-WaterHeat*temperature; math.Abs(got-want) > 1e-9 {
			t.Errorf("%g °C: %g kJ/kg, want %g", temperature, got, want)
		}
	}
}

// TestHumidityRatioInverts shows that the relative humidity comes back from the
// humidity ratio, and that the ratio rises with temperature and humidity.
func TestHumidityRatioInverts(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		temperature := rapid.Float64Range(-40, 80).Draw(t, "temperature")
		rh := rapid.Float64Range(0.01, 1).Draw(t, "rh")
		p := StandardPressure(rapid.Float64Range(0, 3000).Draw(t, "altitude"))
		w := HumidityRatio(temperature, rh, p)
		if back := w / (molarRatio + w) * p / SaturationPressure(temperature); math.Abs(back-rh) > 1e-12 {
			t.Errorf("relative humidity %g came back as %g", rh, back)
		}
		if HumidityRatio(temperature+1, rh, p) <= w || HumidityRatio(temperature, rh+0.01, p) <= w {
			t.Errorf("humidity ratio does not rise at %g °C, %g", temperature, rh)
		}
	})
}

// TestBoiling shows that there is no humidity ratio at and above the boiling
// point, and that the phases meet at the triple point.
func TestBoiling(t *testing.T) {
	if w := HumidityRatio(101, 1, 101325); !math.IsInf(w, 1) {
		t.Errorf("saturated air above boiling: %g, want +Inf", w)
	}
	ice, water := SaturationPressure(0.00999), SaturationPressure(0.01001)
	if math.Abs(ice/water-1) > 1e-4 {
		t.Errorf("saturation pressures over ice %g and water %g Pa do not meet", ice, water)
	}
}
