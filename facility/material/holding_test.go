package material

import (
	"math"
	"testing"
)

// TestCoarseWater shows that chips take up water to their capacity, and no more
// than their share when the whole is drier than that.
func TestCoarseWater(t *testing.T) {
	b := DefaultBulk() // chips hold 0.8 kg/kg
	for _, c := range []struct{ water, want float64 }{{200, 80}, {100, 50}, {0, 0}} {
		p := Parcel{Water: c.water, Fine: Solids{Fixed: 100}, Coarse: Solids{Refractory: 100}}
		m := p.Matter()
		if got := b.CoarseWater(&m); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("water %g: chips hold %g kg, want %g", c.water, got, c.want)
		}
	}
}

// TestFreeAirSpaceTwoWays shows that free air space from volumes is the textbook
// relation from density, solids content and volatile fraction.
func TestFreeAirSpaceTwoWays(t *testing.T) {
	b := DefaultBulk()
	for water := 0.0; water < 1000; water += 50 {
		p := Parcel{Water: water, Fine: Solids{Fixed: 20, Readily: 60}, Coarse: Solids{Fixed: 3, Refractory: 150}}
		got, want := b.FreeAirSpace(p), textbookAirSpace(b, b.Density(p), p.SolidsContent(), p.Volatile()/p.Dry())
		if math.Abs(got-want) > 1e-12 {
			t.Errorf("water %g kg: free air space %g by volumes, %g by density", water, got, want)
		}
	}
	if got := b.FreeAirSpace(Parcel{}); got != 1 {
		t.Errorf("free air space of nothing: %g, want 1", got)
	}
}

// textbookAirSpace is free air space from a measured bulk density (kg/m3), solids
// content and volatile fraction of the solids.
func textbookAirSpace(b Bulk, density, solids, volatile float64) float64 {
	occupied := (1-solids)/1000 + solids*(volatile/b.Organics+(1-volatile)/b.Ash)
	return max(0, 1-density*occupied)
}
