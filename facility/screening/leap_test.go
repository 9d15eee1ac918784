package screening

import (
	"errors"
	"testing"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// Shows that a loop that recovers nearly all comes to rest in some hundred cycles
// where plain cycling takes thousands, at the closed form of
// [TestSteadyRecycleClosedForm], and that what enters there leaves. The share kept
// of the coarse matter, k, and what decays of it are drawn.
func TestSlowLoopComesToRest(t *testing.T) {
	const phi, charge = 0.03, 600.0
	rapid.Check(t, func(t *rapid.T) {
		s := DefaultSettings(0.010)
		s.Attrition, s.Rejects = 0, 0
		s.Recovery = rapid.Float64Range(0.97, 0.9995).Draw(t, "recovery")
		s.MoistureLimit = 1
		d := rapid.SampledFrom([]float64{0, 1e-4, 1e-3, 0.02}).Draw(t, "decay")
		fresh := material.Parcel{Water: 0.5, Coarse: material.Solids{Fixed: phi, Slowly: 1 - phi}}
		feed := material.Parcel{Water: 900, Fine: material.Solids{Fixed: 100, Refractory: 200}}
		var decayed float64
		got, err := SteadyRecycle(Cycle{
			Mix: fixedCharge(feed, fresh, charge),
			Process: func(p material.Parcel) material.Parcel {
				decayed = p.Coarse.Slowly * d
				p.Coarse.Slowly -= decayed
				p.Water *= 0.5
				return p
			},
			Screen: s,
		})
		if err != nil {
			t.Fatal(err)
		}
		k := s.Recovery
		m := charge / (phi/(1-k) + (1-phi)/(1-k*(1-d)))
		within(t, "ash in the charge, kg", got.Batch.Coarse.Fixed, phi*m/(1-k), 1e-3)
		within(t, "makeup", got.Makeup, m/charge, 1e-5)
		in := feed.Plus(got.Fresh)
		within(t, "kg dry out of the loop", got.Split.Product.Dry()+got.Split.Rejects.Dry()+decayed, in.Dry(), 1e-5)
		if got.Iterations > 400 {
			t.Errorf("at rest after %d cycles", got.Iterations)
		}
	})
}

func within(t *rapid.T, what string, got, want, tolerance float64) {
	t.Helper()
	if d := got - want; !(d <= tolerance && d >= -tolerance) {
		t.Errorf("%s: got %.9g, want %.9g", what, got, want)
	}
}

// Shows that a loop that swings between two states is told as such, long before the
// last cycle allowed: a wet batch dries out, a dry one is left wet.
func TestLoopThatAlternates(t *testing.T) {
	cycles := 0
	fresh := material.Parcel{Water: 0.5, Coarse: material.Solids{Fixed: 0.03, Slowly: 0.97}}
	feed := material.Parcel{Water: 900, Fine: material.Solids{Fixed: 100, Refractory: 200}}
	_, err := SteadyRecycle(Cycle{
		Mix: fixedCharge(feed, fresh, 600),
		Process: func(p material.Parcel) material.Parcel {
			cycles++
			if p.Water > 1100 {
				p.Water = 100
			} else {
				p.Water = 800
			}
			return p
		},
		Screen: DefaultSettings(0.010),
	})
	if !errors.Is(err, ErrAlternates) || !errors.Is(err, ErrNotSteady) || cycles > 100 {
		t.Errorf("after %d cycles: %v", cycles, err)
	}
}
