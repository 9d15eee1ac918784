package mix

import (
	"math"
	"testing"

	"loamcast/facility/material"
)

// Shows that a design asked for free air gets it by the account of the volume model,
// between the particles of the settled mix as well as with the air in chips: the mix
// found has what is asked to 1e-6, and the fewest chips that have it, as bisection
// over the ratio of chips finds them (derived).
func TestDesignMeetsFreeAirOfTheSettledMix(t *testing.T) {
	cake := material.Spec{Name: "cake", Moisture: 0.79, Volatile: 0.75, Readily: 0.45, Slowly: 0.2, Nitrogen: 0.045, BulkDensity: 1000}
	chips := material.Spec{Name: "chips", Moisture: 0.40, Volatile: 0.98, Slowly: 0.5, Nitrogen: 0.002, Coarse: 0.94, BulkDensity: 270}
	for _, depth := range []float64{0, 1.5, 2.3, 3.5} {
		for _, least := range []float64{0.15, 0.20, 0.28} {
			b := material.DefaultBulk()
			b.CoarseDry = chips.DryBulkDensity() * chips.Coarse
			b.Structure = material.DefaultStructure(depth)
			d := Design{
				Materials: []Material{
					{Name: "cake", Kind: Cake, Composition: cake.OfWet(1), BulkDensity: 1000, Available: Unlimited},
					{Name: "chips", Kind: FreshChips, Composition: chips.OfWet(1), BulkDensity: 270, Available: Unlimited, Cost: 1},
				},
				Targets: Targets{FreeAirSpace: least}, Objective: LeastCost, Cake: 1000, Bulk: b, Weights: DefaultWeights(),
			}
			r, err := d.Solve()
			if err != nil {
				t.Fatal(err)
			}
			low, high := 0.0, 20.0
			for high-low > 1e-9 {
				mid := (low + high) / 2
				if b.FreeAirSpace(cake.OfWet(1000).Plus(chips.OfWet(270*mid))) < least {
					low = mid
				} else {
					high = mid
				}
			}
			if r.Status != Met || r.FreeAirSpace < least*(1-1e-6) || math.Abs(r.ChipsToCake-high) > 1e-4*high {
				t.Errorf("%g m deep, %g asked: %v with %g at a ratio of %g, not %g", depth, least, r.Status, r.FreeAirSpace, r.ChipsToCake, high)
			}
		}
	}
}
