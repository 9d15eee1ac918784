package material

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Masses per kg oxidised follow from the formulas: exact by atomic weights;
// the expected values are arithmetic on the balanced equation, to the digits
// given (derived).
func TestYields(t *testing.T) {
	for _, c := range []struct {
		name              string
		formula           Formula
		o2, co2, h2o, nh3 float64
	}{
		{"C10H19O3N", Biosolids, 1.987, 2.187, 0.716, 0.0846},
		{"C6H10O5", Wood, 1.184, 1.63, 0.556, 0},
	} {
		y := c.formula.Yields()
		for _, v := range []struct {
			name      string
			got, want float64
			digits    float64
		}{
			{"O2", y.O2, c.o2, 0.0011}, {"CO2", y.CO2, c.co2, 0.0025}, {"H2O", y.H2O, c.h2o, 0.0006}, {"NH3", y.NH3, c.nh3, 0.0001},
		} {
			if math.Abs(v.got-v.want) > v.digits {
				t.Errorf("%s: %.5f kg %s per kg, want %.4f", c.name, v.got, v.name, v.want)
			}
		}
	}
}

// Any formula that can be oxidised balances to the atom.
func TestYieldsBalance(t *testing.T) {
	oxidisable := rapid.Custom(func(t *rapid.T) Formula {
		return Formula{
			C: rapid.Float64Range(1, 30).Draw(t, "C"), H: rapid.Float64Range(0, 60).Draw(t, "H"),
			O: rapid.Float64Range(0, 30).Draw(t, "O"), N: rapid.Float64Range(0, 5).Draw(t, "N"),
		}
	}).Filter(func(f Formula) bool { return f.H >= 3*f.N && f.C+f.H/4-f.O/2-3*f.N/4 > 0 })
	rapid.Check(t, func(t *rapid.T) {
		f := oxidisable.Draw(t, "formula")
		y := f.Yields()
		if r := 1 + y.O2 - y.CO2 - y.H2O - y.NH3; math.Abs(r) > 1e-12 {
			t.Fatalf("%+v: %g kg unaccounted for", f, r)
		}
		if r := y.Carbon - y.CO2*CarbonPerCO2; math.Abs(r) > 1e-12 {
			t.Fatalf("%+v: %g kg of carbon unaccounted for", f, r)
		}
		if r := y.Nitrogen - y.NH3*NitrogenPerNH3; math.Abs(r) > 1e-12 {
			t.Fatalf("%+v: %g kg of nitrogen unaccounted for", f, r)
		}
	})
}
