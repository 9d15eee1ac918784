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
		if got := b.CoarseWater(p); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("water %g: chips hold %g kg, want %g", c.water, got, c.want)
		}
	}
}
