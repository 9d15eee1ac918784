package simulate_test

import (
	"math"
	"strings"
	"testing"

	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/units"

	"loamcast/facility/material"
	"loamcast/facility/plant"
)

// A run tells of ammonia where nitrogen counts, and of water where the file has it, and
// not elsewhere; what it tells agrees with the record: the nitrogen lost with the ledger's
// nitrogen of loads and ammonia, the biofilter's with that of the vessels, per square
// metre of the bed that the file gives.
func TestAmmoniaAndWaterAreTold(t *testing.T) {
	text := readSmall(t)
	a, _, _ := one(t, text+"\nammonia: {account: by formula}\n")
	if screen := rendertest.Text(t, a.Document(), units.SI); strings.Contains(screen, "\nAmmonia") || strings.Contains(screen, "\nWater") {
		t.Errorf("told without being asked:\n%s", screen)
	}
	text = edited(t, text, "  time: 21 day\n", "  time: 21 day\n  rewet: {below: 55 %, up_to: 57 %}\n") +
		"\nammonia: {account: by nitrogen released}\nbiofilter: {area: 10 m2, loading: 75 m3/m2·h}\n"
	a, rec, _ := one(t, text)
	if screen := rendertest.Text(t, a.Document(), units.SI); !strings.Contains(screen, "\nAmmonia") || !strings.Contains(screen, "\nWater") {
		t.Errorf("not told:\n%s", screen)
	}
	loaded, lost := 0.0, 0.0
	for i, path := range rec.Paths {
		switch n := rec.Years[0].Balance.Flows[i].Nitrogen; path.Flow {
		case plant.MixLoaded:
			loaded += n
		case plant.AmmoniaGiven:
			lost += n
		}
	}
	vessels, peak, days, water := 0.0, 0.0, 0.0, 0.0
	for i := range rec.Months {
		m := &rec.Months[i]
		vessels, days, water = vessels+m.Losses.VesselAmmonia, days+m.Days, water+m.Curing.Water
		peak = math.Max(peak, m.Losses.VesselAmmonia/m.Days)
	}
	y := &a.Years[0]
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"nitrogen lost", y.Nitrogen.Lost.P50, lost / loaded},
		{"ammonia by the year", y.Ammonia.P50 * material.NitrogenPerNH3, lost},
		{"to the biofilter, kg a day", y.Nitrogen.ToBiofilter.P50, vessels / days},
		{"in the month of the most", y.Nitrogen.ToBiofilterPeak.P50, peak},
		{"of its bed", y.Nitrogen.PerBed.P50, peak / 10},
		{"water", y.WaterAdded.P50, water},
	} {
		if !(c.want > 0 && math.Abs(c.got-c.want) <= 1e-9*c.want) {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
}
