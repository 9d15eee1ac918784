package mix

import (
	"math"
	"testing"
)

// Shows that no numbers in a design, sensible or not, make Solve panic or
// return a mix that is not one: it refuses, or answers with finite masses
// within what is on hand.
func FuzzSolve(f *testing.F) {
	f.Add(0.38, 0.5, 25.0, 0.25, 700.0, 2.5, 5000.0, 0.04, false)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 1e-9, 0.0, false)
	f.Add(0.9, 0.95, 1e6, 0.99, 1e-3, 1e4, 1e9, 1e12, true)
	f.Add(math.NaN(), math.Inf(1), -1.0, 2.0, -5.0, 0.0, 0.0, -1.0, true)
	f.Fuzz(func(t *testing.T, low, high, cn, air, density, ratio, size, cost float64, most bool) {
		d := plantDesign()
		d.Targets = Targets{
			Solids: Window{low, high}, CarbonToNitrogen: Window{Low: cn}, FreeAirSpace: air,
			BulkDensity: density, ChipsToCake: Window{Low: ratio},
		}
		d.Cake, d.Materials[1].Cost, d.Materials[2].Available = size, cost, size
		if most {
			d.Objective = MostCake
		}
		r, err := d.Solve()
		if err != nil {
			return
		}
		for i, kg := range r.Mass {
			if !(kg >= 0 && kg <= d.Materials[i].Available) || math.IsInf(kg, 0) {
				t.Fatalf("%s: %g kg", d.Materials[i].Name, kg)
			}
		}
		if (r.Status == Met) != (len(r.Misses) == 0) {
			t.Fatalf("%v with misses %+v", r.Status, r.Misses)
		}
	})
}
