package recycle

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/plant"
)

// Proves that in the steady loop, too, an amendment of the very properties of chips
// is so much more chips: ratio c + r of chips gives the load, the way and the screen's
// streams of c of chips and r of the amendment, to the accuracy of the steady state.
func TestAmendmentLikeChips(t *testing.T) {
	m := constant()
	m.Chips.Fresh.Coarse = 1
	m.Bulk.CoarseDry = m.Chips.Fresh.DryBulkDensity()
	whole := m
	whole.Recipe.ChipsPerCake += 0.4
	a := plant.Amendment{Material: m.Chips.Fresh.WithMoisture(m.Chips.Moisture[3]), PerCake: twelve(0.4)}
	m.Amendments = []plant.Amendment{a}
	got, err := New(&m, time.April).Steady(t.Context(), AsRun(&m, time.April))
	if err != nil {
		t.Fatal(err)
	}
	want, err := New(&whole, time.April).Steady(t.Context(), AsRun(&whole, time.April))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want material.Parcel
	}{
		{"load", got.Load, want.Load},
		{"cake", got.Parts.Cake, want.Parts.Cake},
		{"fresh", got.Parts.Fresh.Plus(got.Parts.Other), want.Parts.Fresh},
		{"recovered", got.Split.Recovered, want.Split.Recovered},
		{"product", got.Split.Product, want.Split.Product},
	} {
		if math.Abs(c.got.Total()-c.want.Total()) > 1e-6*want.Load.Total() || math.Abs(c.got.Carbon()-c.want.Carbon()) > 1e-6*want.Load.Carbon() {
			t.Errorf("%s: %.9g kg with %.9g kg of carbon, with chips alone %.9g with %.9g", c.name, c.got.Total(), c.got.Carbon(), c.want.Total(), c.want.Carbon())
		}
	}
}

// Proves that product in the recipe is that of the load itself, as much as is asked
// for, and that the parts add up to the load.
func TestProductInTheLoop(t *testing.T) {
	m := constant()
	m.Amendments = []plant.Amendment{{Source: plant.FromProduct, Without: true, PerCake: twelve(0.3)}}
	s, err := New(&m, time.July).Steady(t.Context(), AsRun(&m, time.July))
	if err != nil {
		t.Fatal(err)
	}
	if got := m.Bulk.Volume(s.Parts.Other) / s.Volumes.Cake; math.Abs(got-0.3) > 1e-6 {
		t.Errorf("%.6g m3 of product for each m3 of cake, 0.3 asked for", got)
	}
	if got, want := s.Parts.Other.Moisture(), s.Split.Product.Moisture(); math.Abs(got-want) > 1e-6 {
		t.Errorf("product of %.6g moisture in the mix, the screen lets %.6g through", got, want)
	}
	sum := s.Parts.Cake.Plus(s.Parts.Fresh).Plus(s.Parts.Recovered).Plus(s.Parts.Other)
	if math.Abs(sum.Total()-s.Load.Total()) > 1e-9*s.Load.Total() {
		t.Errorf("parts of %g kg in a load of %g", sum.Total(), s.Load.Total())
	}
}
