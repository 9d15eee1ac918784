package mix

import (
	"math"
	"testing"

	"loamcast/facility/material"
)

// The materials of an invented plant, within the ranges of Published.
var (
	testCake = material.Spec{Name: "cake", Moisture: 0.80, Volatile: 0.70, Readily: 0.45, Nitrogen: 0.045, BulkDensity: 1000}
	fresh    = material.Spec{Name: "fresh", Moisture: 0.35, Volatile: 0.97, Slowly: 0.2, Nitrogen: 0.002, Coarse: 0.9, BulkDensity: 300}
	returned = material.Spec{Name: "returned", Moisture: 0.45, Volatile: 0.90, Slowly: 0.1, Nitrogen: 0.006, Coarse: 0.8, BulkDensity: 360}
	sawdust  = material.Spec{Name: "sawdust", Moisture: 0.40, Volatile: 0.98, Slowly: 0.3, Nitrogen: 0.001, Coarse: 0, BulkDensity: 240}
)

func priced(s material.Spec, k Kind, cost float64) Material {
	return Material{
		Name: s.Name, Kind: k, Composition: s.OfWet(1), BulkDensity: s.BulkDensity, Available: Unlimited, Cost: cost,
	}
}

// plantDesign asks for a usual biosolids mix of 5,000 kg of cake.
func plantDesign() Design {
	return Design{
		Materials: []Material{
			priced(testCake, Cake, 0), priced(fresh, FreshChips, 0.04),
			priced(returned, RecoveredChips, 0.004), priced(sawdust, Amendment, 0.06),
		},
		Targets: Targets{
			Solids: Window{0.38, 0.50}, CarbonToNitrogen: Window{20, 40}, FreeAirSpace: 0.25,
			BulkDensity: 700, ChipsToCake: Window{2, 4},
		},
		Cake: 5000, Bulk: material.DefaultBulk(), Weights: DefaultWeights(),
	}
}

func mustSolve(t testing.TB, d Design) Result {
	t.Helper()
	r, err := d.Solve()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, tol)
	}
}
