package material

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func anyParcel() *rapid.Generator[Parcel] {
	return rapid.Custom(func(t *rapid.T) Parcel {
		mass := func(name string, top float64) float64 { return rapid.Float64Range(0, top).Draw(t, name) }
		return Parcel{
			Water:  mass("water", 1000),
			Fine:   Solids{Fixed: mass("fixed", 100), Refractory: mass("volatile", 300)},
			Coarse: Solids{Fixed: mass("coarse fixed", 10), Refractory: mass("coarse volatile", 500)},
		}
	})
}

// Shows that every parcel lies on a branch, and that on each branch it lies on
// the formula gives the volume of Bulk.Volume.
func TestBranchesCoverTheVolumeModel(t *testing.T) {
	b := DefaultBulk()
	rapid.Check(t, func(t *rapid.T) {
		p := anyParcel().Draw(t, "parcel")
		want, found := b.Volume(p), false
		for _, br := range Branches() {
			volume, margins := b.OnBranch(p, br)
			if min(margins[0], margins[1], margins[2], margins[3]) < 0 {
				continue
			}
			found = true
			if math.Abs(volume-want) > 1e-9*(want+1e-9) {
				t.Fatalf("branch %+v: volume %g, want %g", br, volume, want)
			}
		}
		if !found && p.Total() > 1e-9 {
			t.Fatalf("%+v lies on no branch", p)
		}
	})
}

// Shows that free air space is what the air-free volume leaves.
func TestSolidVolumeMatchesFreeAirSpace(t *testing.T) {
	b := DefaultBulk()
	rapid.Check(t, func(t *rapid.T) {
		p := anyParcel().Filter(func(p Parcel) bool { return b.Volume(p) >= 1e-6 }).Draw(t, "parcel that is there")
		volume := b.Volume(p)
		want := max(0, 1-b.SolidVolume(p)/volume)
		if got := b.FreeAirSpace(p); math.Abs(got-want) > 1e-12 {
			t.Fatalf("free air space %g, want %g", got, want)
		}
	})
}
