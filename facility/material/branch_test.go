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
		want := max(0, 1-b.SolidVolume(&p)/volume)
		if got := b.FreeAirSpace(p); math.Abs(got-want) > 1e-12 {
			t.Fatalf("free air space %g, want %g", got, want)
		}
	})
}

// Matter that crumbles as it loses water takes more room on the way than before and after:
// the most between the two is above that, too.
func TestMostVolumeBetweenCrumbles(t *testing.T) {
	b := DefaultBulk()
	of := func(solids float64) Parcel {
		return Spec{Name: "cake", Moisture: 1 - solids, Volatile: 0.7, Nitrogen: 0.05, BulkDensity: 1}.OfDry(1)
	}
	wet, between, dry := of(0.35), of(0.55), of(0.58)
	w, m, d := b.VolumeOf(&wet), b.VolumeOf(&between), b.VolumeOf(&dry)
	if !(m > w && m > d) {
		t.Fatalf("%g m3 on the way, %g before and %g after", m, w, d)
	}
	if most := b.MostVolumeBetween(wet.Matter(), dry.Matter()); !(m <= most) {
		t.Errorf("%g m3 on the way, and %g at the most", m, most)
	}
}

// Whatever a mixture on the way from one to another is made of, it takes no more room than
// the most between the two; and the most between one and itself is what it takes. Both hold
// for matter of any kind, whatever voids, water and porosity it has.
func TestMostVolumeBetweenIsNotPassed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := DefaultBulk()
		draw := func(name string, least, most float64) float64 { return rapid.Float64Range(least, most).Draw(t, name) }
		b.CoarseVoids, b.Filling, b.CoarseHolding = draw("voids", 0.2, 0.9), draw("filling", 0, 1), draw("holding", 0, 3)
		b.Crumb = Crumb{Paste: draw("paste", 0.05, 0.3), Loose: draw("loose", 0.35, 0.9), Porosity: draw("porosity", 0, 0.9)}
		p, q := anyParcel().Draw(t, "p"), anyParcel().Draw(t, "q")
		most := b.MostVolumeBetween(p.Matter(), q.Matter())
		part := rapid.Float64Range(0, 1).Draw(t, "part")
		between := p.Times(1 - part).Plus(q.Times(part))
		if v := b.VolumeOf(&between); !(v <= most*(1+1e-12)) {
			t.Fatalf("%g m3, and %g at the most", v, most)
		}
		if v, own := b.VolumeOf(&p), b.MostVolumeBetween(p.Matter(), p.Matter()); !near(v, own, v) {
			t.Fatalf("%g m3, and %g at the most", v, own)
		}
	})
}
