package mix

import (
	"math/rand/v2"

	"loamcast/facility/material"
)

// randomDesign draws a design with up to five materials and up to all targets.
// Some designs have no mix, some have windows of no width, free materials,
// twins under another name, or nothing left of a material.
func randomDesign(r *rand.Rand) Design {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	some := func(p float64) bool { return r.Float64() < p }

	d := Design{Bulk: material.DefaultBulk(), Weights: DefaultWeights(), Cake: between(500, 8000)}
	cake, chips, old, dust := testCake, fresh, returned, sawdust
	cake.Moisture = between(0.72, 0.86)
	chips.Moisture = between(0.15, 0.5)
	old.Moisture = between(0.35, 0.55)
	old.Coarse = between(0.5, 0.95)
	dust.Moisture = between(0.15, 0.65)
	d.Materials = []Material{priced(cake, Cake, 0), priced(chips, FreshChips, between(0.01, 0.1))}
	if some(0.7) {
		d.Materials = append(d.Materials, priced(old, RecoveredChips, 0))
	}
	if some(0.5) {
		d.Materials = append(d.Materials, priced(dust, Amendment, between(0.01, 0.2)))
	}
	if some(0.2) {
		twin := chips
		twin.Name = "twin"
		d.Materials = append(d.Materials, priced(twin, FreshChips, d.Materials[1].Cost))
	}
	for i := range d.Materials[1:] {
		if some(0.3) {
			d.Materials[i+1].Available = d.Cake * between(0, 1)
		}
		if some(0.05) {
			d.Materials[i+1].Available = 0
		}
	}
	window := func(lowA, lowB, width float64) Window {
		low := between(lowA, lowB)
		if some(0.2) {
			return Window{low, low}
		}
		return Window{low, low + width*r.Float64()}
	}
	if some(0.8) {
		d.Targets.Solids = window(0.3, 0.45, 0.15)
	}
	if some(0.6) {
		d.Targets.CarbonToNitrogen = window(15, 35, 20)
	}
	if some(0.6) {
		d.Targets.FreeAirSpace = between(0.15, 0.5)
	}
	if some(0.5) {
		d.Targets.BulkDensity = between(500, 800)
	}
	if some(0.6) {
		d.Targets.ChipsToCake = window(1, 3.5, 2)
	}
	if some(0.2) {
		d.Volume = between(1, 4) * d.Cake / 1000
	}
	if some(0.2) {
		d.Weight = between(1.2, 3) * d.Cake
	}
	return d
}
