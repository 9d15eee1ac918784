package mix

import (
	"testing"

	"loamcast/facility/material"
)

// composed is a material with the moisture and the dry-mass carbon and
// nitrogen of a worked example. Its volume plays no part.
func composed(name string, k Kind, moisture, carbon, nitrogen, cost float64) Material {
	return priced(material.Spec{
		Name: name, Moisture: moisture, Volatile: 0.9, Carbon: carbon, Nitrogen: nitrogen, BulkDensity: 500,
	}, k, cost)
}

// twoMaterials asks for the least of a second material for wet kg of the first.
func twoMaterials(t *testing.T, wet float64, first, second Material, targets Targets) Result {
	t.Helper()
	r := mustSolve(t, Design{
		Materials: []Material{first, second}, Targets: targets, Cake: wet,
		Bulk: material.DefaultBulk(), Weights: DefaultWeights(),
	})
	if r.Status != Met {
		t.Fatalf("not met: %+v", r.Misses)
	}
	return r
}

// Shows that the program finds the published answers of the mix equations as
// the least amount of the second material.
func TestPublishedMixes(t *testing.T) {
	grass := composed("grass clippings", Cake, 0.77, 0.45, 0.024, 0)
	leaves := composed("leaves", Amendment, 0.35, 0.50, 0.0075, 1)
	manure := composed("manure", Cake, 0.70, 0.60, 0.06, 0)
	dust := composed("sawdust", Amendment, 0.35, 0.55, 0.0011, 1)
	wet60 := Targets{Solids: Window{Low: 0.40}}
	cn30 := Targets{CarbonToNitrogen: Window{Low: 30}}

	// Richard and Trautmann, Cornell composting science pages (copy): 10 kg at
	// 77 % moisture, goal 60 %, second material at 35 %.
	r := twoMaterials(t, 10, grass, leaves, wet60)
	near(t, "leaves for 60 % moisture, kg", r.Mass[1], 6.8, 1e-6)
	near(t, "its C:N (derived)", r.CarbonToNitrogen, 36.7, 0.05)

	// The same source (memory); 3.474 is derived.
	r = twoMaterials(t, 10, grass, leaves, cn30)
	near(t, "leaves for C:N 30, kg", r.Mass[1], 3.474, 5e-4)

	// Set up after NRAES-54 (memory), answers derived.
	r = twoMaterials(t, 1, manure, dust, wet60)
	near(t, "sawdust for 60 % moisture, kg/kg", r.Mass[1], 0.400, 1e-6)
	near(t, "its C:N", r.CarbonToNitrogen, 17.66, 0.005)
	r = twoMaterials(t, 1, manure, dust, cn30)
	near(t, "sawdust for C:N 30, kg/kg", r.Mass[1], 1.071, 5e-4)
	near(t, "its moisture", r.Moisture, 0.519, 5e-4)
}

// Shows that losing volatile solids with the ash conserved gives
// (a − b)/(a − ab) for a fall of the volatile fraction from a to b (derived).
func TestVolatileLoss(t *testing.T) {
	noNitrogenLeft := material.Chemistry{Readily: material.Wood.Yields(), Slowly: material.Wood.Yields()}
	for _, row := range []struct{ a, b, loss float64 }{
		{0.80, 0.70, 0.4167}, {0.75, 0.60, 0.5000}, {0.85, 0.80, 0.2941},
	} {
		p := material.Spec{Volatile: row.a, Readily: 1, Moisture: 0.6}.OfDry(1)
		before := p.Volatile()
		p.Oxidise(material.Oxidation{FineReadily: row.loss * before}, &noNitrogenLeft)
		near(t, "volatile fraction left", p.Volatile()/p.Dry(), row.b, 5e-5)
		near(t, "loss", (row.a-row.b)/(row.a-row.a*row.b), row.loss, 5e-5)
	}
}

// Shows free air space for both customary particle densities of organics
// (Haug 1993 for 1.0; equations from memory, values derived).
func TestFreeAirSpaceRows(t *testing.T) {
	heavy, light := material.DefaultBulk(), material.DefaultBulk()
	light.Organics = 1000
	for _, row := range []struct{ density, solids, volatile, heavy, light float64 }{
		{500, 0.40, 0.80, 0.584, 0.524},
		{600, 0.40, 0.80, 0.501, 0.429},
		{700, 0.40, 0.75, 0.421, 0.342},
		{800, 0.35, 0.70, 0.324, 0.250},
		{1000, 0.22, 0.75, 0.095, 0.033},
	} {
		solids := row.density * row.solids
		p := material.Parcel{Water: row.density - solids,
			Fine: material.Solids{Fixed: solids * (1 - row.volatile), Refractory: solids * row.volatile}}
		near(t, "organics 1.6", 1-heavy.SolidVolume(&p), row.heavy, 6e-4) // of 1 m3
		near(t, "organics 1.0", 1-light.SolidVolume(&p), row.light, 6e-4)
	}
}

// Shows that published ranges contain what a plant has and flag what it has
// not, each with its source.
func TestPublishedRanges(t *testing.T) {
	for _, r := range Published() {
		if r.Source == "" || r.Low <= 0 || (r.High > 0 && r.High <= r.Low) {
			t.Errorf("range %+v is not usable", r)
		}
	}
	usual := []struct {
		s Subject
		q Quantity
		v float64
	}{
		{OfChips, MoistureContent, fresh.Moisture}, {OfChips, BulkDensity, fresh.BulkDensity},
		{OfChips, NitrogenContent, fresh.Nitrogen}, {OfSawdust, MoistureContent, sawdust.Moisture},
		{OfSawdust, BulkDensity, sawdust.BulkDensity}, {OfSawdust, NitrogenContent, sawdust.Nitrogen},
		{OfCake, BulkDensity, testCake.BulkDensity}, {OfCake, SolidsContent, 1 - testCake.Moisture},
		{OfMix, CarbonNitrogen, 28}, {OfMix, FreeAirSpace, 0.45}, {OfMix, ChipsToCakeRatio, 3},
	}
	for _, u := range usual {
		if out := Outside(u.s, u.q, u.v); len(out) > 0 {
			t.Errorf("%s %g called outside %+v", u.s, u.v, out)
		}
	}
	if out := Outside(OfMix, MoistureContent, 0.60); len(out) != 1 || !out[0].Preferred {
		t.Errorf("60 %% moisture: %+v, want outside the preferred range only", out)
	}
	if out := Outside(OfChips, MoistureContent, 0.55); len(out) != 1 || out[0].High != 0.40 {
		t.Errorf("chips at 55 %%: %+v, want one range to 40 %%", out)
	}
}
