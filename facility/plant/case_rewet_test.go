package plant

import (
	"context"
	"math"
	"testing"

	"loamcast/facility/material"
)

// Lots that are too dry get the water that brings them to the moisture asked for, on
// the pad, at the instant at which they are put up to cure; lots that are not get none.
//
// In this plant nothing heats and nothing dries, so that a lot is tipped as it was
// mixed: at moisture w, with d kg of dry matter. Brought to u it takes d·u/(1 − u) kg
// of water, less the d·w/(1 − w) that it has. With screening first the part of it that
// goes through the screen does.
func TestCaseRewetting(t *testing.T) {
	for _, first := range []bool{false, true} {
		m := paper()
		m.Screening.First = first
		_, plain := follow(t, m, caseKey)
		if n := len(plain.on("water added")); n > 0 {
			t.Errorf("screening first %v: water is added %d times without being asked for", first, n)
		}
		put := "compost unloaded"
		if first {
			put = "screened, to be cured"
		}
		lots := plain.on(put)
		w := lots[0].Moisture
		m.Curing.Rewet = Rewet{Below: w + 0.01, UpTo: w + 0.1}
		rec, d := follow(t, m, caseKey)
		water := d.on("water added")
		if lots = d.on(put); len(water) != len(lots) || len(lots) < 5 {
			t.Fatalf("screening first %v: %d lots, water for %d", first, len(lots), len(water))
		}
		sum := 0.0
		for i, lot := range lots {
			dry := lot.Amount.Fixed + lot.Amount.Volatile
			want := dry*m.Curing.Rewet.UpTo/(1-m.Curing.Rewet.UpTo) - lot.Amount.Water
			near(t, "water of a lot, kg", water[i].Amount.Water, want, 1e-9*dry)
			if water[i].At != lot.At || water[i].Load != lot.Load {
				t.Errorf("screening first %v: lot %d is put up at %v and gets water at %v", first, lot.Load, lot.At, water[i].At)
			}
			sum += water[i].Amount.Water
		}
		near(t, "water of all months, kg", total(rec, func(m *Month) float64 { return m.Curing.Water }), sum, 1e-9*sum)
		same(t, "lots that got it", total(rec, func(m *Month) float64 { return m.Curing.Rewetted }), float64(len(lots)))

		m.Curing.Rewet.Below = w - 0.01
		if _, d := follow(t, m, caseKey); len(d.on("water added")) > 0 {
			t.Errorf("screening first %v: lots of %.3f moisture get water below %.3f", first, w, m.Curing.Rewet.Below)
		}
	}
}

// A plant that rewets dry lots decays more on its pad and screens wetter lots, and its
// ledger counts the water.
func TestRewettingRevivesDryLots(t *testing.T) {
	m := model()
	m.Active.Criteria, m.Pile.Criteria = nil, nil
	m.Feed.CakeSolids, m.Chips.Moisture = repeat12(0.28), repeat12(0.2)
	for i := range m.Active.Program {
		m.Active.Program[i].MinFlow = 40
	}
	plain := mustRun(t, m, caseKey)
	m.Curing.Rewet = Rewet{Below: 0.40, UpTo: 0.50}
	wetted := mustRun(t, m, caseKey)
	water := total(wetted, func(m *Month) float64 { return m.Curing.Water })
	oxidised := func(rec *Record) float64 { return total(rec, func(m *Month) float64 { return m.Losses.Oxidised }) }
	screened := func(rec *Record) float64 {
		return total(rec, func(m *Month) float64 { return m.Screen.Moisture }) / total(rec, func(m *Month) float64 { return m.Screen.Lots })
	}
	if t.Logf("%.0f t of water", water/1000); !(water > 0 && oxidised(wetted) > 1.02*oxidised(plain) && screened(wetted) > screened(plain)) {
		t.Errorf("oxidised %.0f kg with %.0f kg of water and %.0f without, moistures at the screen %.3f and %.3f",
			oxidised(wetted), water, oxidised(plain), screened(wetted), screened(plain))
	}
}

// With ammonia by the nitrogen released the ledger's nitrogen is exact, more nitrogen
// in the cake gives more ammonia, and what goes to the biofilter is the vessels' part.
func TestAmmoniaInTheLedger(t *testing.T) {
	of := func(nitrogen float64) float64 {
		m := model()
		m.WarmUp, m.Cake.Nitrogen = 0, nitrogen
		m.Chemistry.Microbes = material.DefaultMicrobes()
		m.Active.Chemistry, m.Pile.Chemistry = m.Chemistry, m.Chemistry
		vessels, all := 0.0, 0.0
		rec, err := plantOf(t, m).RunTraced(context.Background(), caseKey, func(mv Movement) {
			if mv.Path.Flow == AmmoniaGiven {
				all += mv.Amount.Total
				if mv.Path.From == "vessels" {
					vessels += mv.Amount.Total
				}
			}
		})
		if err != nil {
			t.Fatal(err)
		}
		if !(rec.Worst <= material.Tolerance) {
			t.Errorf("residual %.3g of throughput at %s", rec.Worst, rec.WorstAt)
		}
		ammonia := total(rec, func(m *Month) float64 { return m.Losses.Ammonia })
		near(t, "ammonia, kg", ammonia, all, 1e-9*all)
		near(t, "ammonia of vessels, kg", total(rec, func(m *Month) float64 { return m.Losses.VesselAmmonia }), vessels, 1e-9*all)
		in := 0.0
		for _, y := range rec.Years {
			in += y.Balance.In.Nitrogen
		}
		if share := ammonia * material.NitrogenPerNH3 / in; !(share > 0.05 && share < 0.64) || math.IsNaN(share) {
			t.Errorf("%.1f %% of the nitrogen leaves", 100*share)
		} else {
			t.Logf("%.1f %% nitrogen in the cake: %.1f %% of it leaves", 100*nitrogen, 100*share)
		}
		return ammonia
	}
	if a, b := of(0.04), of(0.08); b < 1.8*a {
		t.Errorf("%.0f kg of ammonia with 4 %% nitrogen, %.0f with 8 %%", a, b)
	}
}
