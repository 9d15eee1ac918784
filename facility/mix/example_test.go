package mix_test

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/mix"
)

// of is an unlimited material without cost.
func of(s material.Spec, k mix.Kind) mix.Material {
	return mix.Material{Name: s.Name, Kind: k, Composition: s.OfWet(1), BulkDensity: s.BulkDensity, Available: mix.Unlimited}
}

// Shows a batch as a plant would load it: 4,000 kg of cake with at most 1,500 kg
// of recovered chips, which cost nothing, and fresh chips for the rest.
func ExampleDesign_Solve() {
	cake := of(material.Spec{Name: "cake", Moisture: 0.78, Volatile: 0.7, Nitrogen: 0.045, BulkDensity: 1000}, mix.Cake)
	fresh := of(material.Spec{Name: "fresh chips", Moisture: 0.35, Volatile: 0.97, Nitrogen: 0.002, Coarse: 0.9, BulkDensity: 300}, mix.FreshChips)
	recovered := of(material.Spec{Name: "recovered chips", Moisture: 0.45, Volatile: 0.9, Nitrogen: 0.006, Coarse: 0.8, BulkDensity: 360}, mix.RecoveredChips)
	fresh.Cost, recovered.Available = 0.04, 1500

	d := mix.Design{
		Materials: []mix.Material{cake, fresh, recovered},
		Targets:   mix.Targets{Solids: mix.Window{Low: 0.38}, ChipsToCake: mix.Window{Low: 2.5}, FreeAirSpace: 0.25},
		Cake:      4000,
		Bulk:      material.DefaultBulk(),
		Weights:   mix.DefaultWeights(),
	}
	r, err := d.Solve()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("met: %v, binding: %v\n", r.Status == mix.Met, r.Binding)
	for _, s := range d.LoadingCard(r) {
		fmt.Printf("%-15s %5.0f kg  scale %5.0f kg  %4.1f m3\n", s.Name, s.Add, s.Scale, s.Volume)
	}
	// Output:
	// met: true, binding: [lowest chips-to-cake ratio]
	// fresh chips      1750 kg  scale  1750 kg   5.7 m3
	// recovered chips  1500 kg  scale  3250 kg   9.6 m3
	// cake             4000 kg  scale  7250 kg  11.4 m3
}
