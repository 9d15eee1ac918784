package screening

import (
	"errors"
	"math"
	"testing"

	"loamcast/facility/material"
)

// Shows the steady loop against its closed form. Chips of ash share φ are
// charged at C kg dry; a cycle keeps the part k = (1 − wear)·recovery·(1 −
// rejects) of all of them, and burns the part d of their volatile solids first.
// With m kg of fresh chips:
//
//	ash F = φ·m/(1 − k),  volatile S = (1 − φ)·m/(1 − k(1 − d)),  F + S = C
//
// d = 0 is the inert case, where the makeup m/C is 1 − k.
func TestSteadyRecycleClosedForm(t *testing.T) {
	const phi, charge = 0.03, 600.0
	s := DefaultSettings(0.010)
	s.Recovery, s.Attrition, s.Rejects = 0.75, 0.06, 0.04
	k := (1 - s.Attrition) * s.Recovery * (1 - s.Rejects)
	fresh := material.Parcel{Water: 0.5, Coarse: material.Solids{Fixed: phi, Slowly: 1 - phi}}
	feed := material.Parcel{Water: 900, Fine: material.Solids{Fixed: 100, Refractory: 200}}

	for _, d := range []float64{0, 0.08} {
		got, err := SteadyRecycle(Cycle{
			Mix: fixedCharge(feed, fresh, charge),
			Process: func(p material.Parcel) material.Parcel {
				p.Coarse.Slowly *= 1 - d
				p.Water *= 0.5
				return p
			},
			Screen: s,
		})
		if err != nil {
			t.Fatal(err)
		}
		m := charge / (phi/(1-k) + (1-phi)/(1-k*(1-d)))
		near(t, "makeup", got.Makeup, m/charge, 1e-8)
		near(t, "ash in the charge, kg", got.Batch.Coarse.Fixed, phi*m/(1-k), 1e-6)
		near(t, "volatile solids in the charge, kg", got.Batch.Coarse.Slowly, (1-phi)*m/(1-k*(1-d)), 1e-6)
		near(t, "coarse in the charge, kg", got.Batch.Coarse.Dry(), charge, 1e-9)
		if d == 0 {
			near(t, "inert makeup", got.Makeup, 1-k, 1e-8)
			// What goes round carries its fine matter with it.
			near(t, "fine recovered, kg", got.Split.Recovered.Fine.Dry(),
				s.CarryOver*got.Split.Recovered.Coarse.Dry(), 1e-6)
			in := feed.Plus(got.Fresh)
			out := got.Split.Product.Plus(got.Split.Rejects)
			near(t, "in and out of the steady loop, kg dry", out.Dry(), in.Dry(), 1e-6)
		}
		if d > 0 && got.Iterations < 10 { // an inert loop is steady at once
			t.Errorf("steady after %d cycles, hardly", got.Iterations)
		}
	}
}

// Shows that a loop that gains matter each time, and one that turns into no
// number at all, are reported and do not run for ever; and that bad settings
// are refused first.
func TestSteadyRecycleRefusesWhatDoesNotSettle(t *testing.T) {
	s := DefaultSettings(0.010)
	mix := func(recovered material.Parcel) (batch, fresh material.Parcel) {
		fresh = material.Parcel{Coarse: material.Solids{Refractory: 1}}
		return fresh.Plus(recovered), fresh
	}
	grow := func(p material.Parcel) material.Parcel { return p.Times(1.5) }
	if _, err := SteadyRecycle(Cycle{Mix: mix, Process: grow, Screen: s}); !errors.Is(err, ErrNotSteady) {
		t.Errorf("growing loop: %v", err)
	}
	spoil := func(p material.Parcel) material.Parcel { return p.Times(math.NaN()) }
	if _, err := SteadyRecycle(Cycle{Mix: mix, Process: spoil, Screen: s}); !errors.Is(err, ErrNotSteady) {
		t.Errorf("spoilt loop: %v", err)
	}
	s.Recovery = 1.5
	if _, err := SteadyRecycle(Cycle{Mix: mix, Process: grow, Screen: s}); err == nil || errors.Is(err, ErrNotSteady) {
		t.Errorf("recovery of 150 %%: %v", err)
	}
}

// fixedCharge mixes the same feed with coarseDry kg of dry coarse matter each
// time: recovered chips as far as there are any, and fresh ones for the rest.
func fixedCharge(feed, fresh material.Parcel, coarseDry float64) func(material.Parcel) (batch, added material.Parcel) {
	return func(recovered material.Parcel) (batch, added material.Parcel) {
		used := recovered
		if r := recovered.Coarse.Dry(); r > coarseDry {
			used = recovered.Times(coarseDry / r)
		}
		added = fresh.Times((coarseDry - used.Coarse.Dry()) / fresh.Coarse.Dry())
		return feed.Plus(used).Plus(added), added
	}
}

func BenchmarkScreen(b *testing.B) {
	s, in := DefaultSettings(0.010), compost(0.48)
	for b.Loop() {
		Screen(in, s)
	}
}
