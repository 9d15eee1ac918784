package facilityfile_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim"
	"loamcast/sim/random"
)

// opening is every key of the first day, for the demo.
const opening = `opening:
  holding: {cake_dry: 2 t, oldest: 3 day}
  vessels:
    - {loaded: 2026-12-20}
    - {loaded: 2026-12-27, cake_dry: 1.5 t}
  pad:
    - {tipped: 2026-12-01, volume: 30 m3, moisture: 48 %, temperature: 40 °C}
    - {tipped: 2026-11-15, wet_mass: 9 t}
  chips: {fresh: 150 m3, recovered: 100 m3}
  product: 400 m3
`

// withOpening is a built-in example with an opening in place of its warm-up.
func withOpening(text string) (*facilityfile.File, error) {
	demo := string(examples.Data(examples.Demo))
	before, after, _ := strings.Cut(demo, "warm_up: 1 year\n")
	return facilityfile.Parse("plant.yaml", []byte(before+after+"\n"+text))
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
		t.Errorf("%s: %.12g, want %.12g", what, got, want)
	}
}

// What a file says of the first day is there on the first day, to the last kg, and the
// rest is of the steady loads: a load without its cake is a full one.
func TestOpeningIsRead(t *testing.T) {
	f, err := withOpening(opening)
	if err != nil {
		t.Fatal(err)
	}
	m := &f.Model
	o := m.Opening
	if m.WarmUp != 0 || len(o.Vessels) != 2 || len(o.Pad) != 2 {
		t.Fatalf("%d years of warm-up, %d vessels, %d piles", m.WarmUp, len(o.Vessels), len(o.Pad))
	}
	volume := func(q material.Parcel) float64 { return m.Bulk.Volume(q) }
	near(t, "cake held, kg dry", o.Held.Dry(), 2000)
	near(t, "its solids", o.Held.SolidsContent(), m.Feed.CakeSolids[0])
	near(t, "oldest cake, days", o.HeldFor.Days(), 3)
	near(t, "fresh chips, m3", o.Fresh.Total()/m.Chips.Fresh.WithMoisture(m.Chips.Moisture[0]).BulkDensity, 150)
	near(t, "recovered chips, m3", volume(o.Recovered), 100)
	near(t, "product, m3", volume(o.Product), 400)
	near(t, "age of the first load, days", o.Vessels[0].Age.Days(), 12)
	near(t, "cake of the second, kg dry", o.Vessels[1].Cake.Dry(), 1500)
	near(t, "volume of the first pile", volume(o.Pad[0].Lot), 30)
	near(t, "its moisture", o.Pad[0].Lot.Moisture(), 0.48)
	near(t, "its temperature", o.Pad[0].Warmth, 40)
	near(t, "its age, days", o.Pad[0].Age.Days(), 31)
	near(t, "wet mass of the second", o.Pad[1].Lot.Total(), 9000)
	full := o.Vessels[0].Load
	if by := max(full.Total()/m.Vessels.Payload, volume(full)/m.Vessels.Volume); math.Abs(by-1) > 1e-9 {
		t.Errorf("a full load fills its vessel to %g", by)
	}
	if o.Recovered.Coarse.Dry() < o.Recovered.Fine.Dry() || o.Product.Coarse.Dry() > o.Product.Fine.Dry() {
		t.Error("recovered chips are fine, or product is coarse")
	}
	i := slices.IndexFunc(f.Settings(), func(s facilityfile.Setting) bool { return s.Path == "warm_up" })
	if used := f.Settings()[i].Used; used != "none" {
		t.Errorf("the warm-up is listed as %s", used)
	}
	few, err := withOpening("opening: {vessels_in_use: 3}\n")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []float64{3, 9, 15} { // of 18 days
		near(t, "age of vessels in use, days", few.Model.Opening.Vessels[i].Age.Days(), want)
	}
	near(t, "fresh chips where nothing is said, as ordered up to", few.Model.Opening.Fresh.Total(), m.Chips.OrderUpTo*m.Chips.Fresh.WithMoisture(m.Chips.Moisture[0]).BulkDensity)
}

// The masses of a run that begins with what is there balance, and the meters of its first
// month see it.
func TestOpeningIsMetered(t *testing.T) {
	f, err := withOpening(opening)
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Years = 1
	p, err := plant.New(f.Model)
	if err != nil {
		t.Fatal(err)
	}
	whole, err := p.Run(t.Context(), random.Key{Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	if whole.Worst > material.Tolerance {
		t.Errorf("residual %g at %s", whole.Worst, whole.WorstAt)
	}
	first := whole.Months[0]
	if first.Vessels.Peak < 2 || first.Product.StorePeak < 400-1e-6 || first.Curing.PadPeak < 30 || first.Holding.Peak < 2000-1e-6 || first.Holding.Oldest < 3 {
		t.Errorf("the first month has at most %g vessels in use, %g m3 of product, %g on the pad, %g kg of cake, %g days old",
			first.Vessels.Peak, first.Product.StorePeak, first.Curing.PadPeak, first.Holding.Peak, first.Holding.Oldest)
	}
}

// A plant that begins as it mostly is goes on as it mostly does: vessels spread over the
// residence, and piles over the curing time, come near to what a warm-up brings.
func TestOpeningOfASteadyPlantIsNearWarmUp(t *testing.T) {
	demo, err := facilityfile.Parse("demo", examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	mean := func(m plant.Model) float64 {
		m.Years = 1
		p, err := plant.New(m)
		if err != nil {
			t.Fatal(err)
		}
		sum := 0.0
		for replication := range 4 {
			rec, err := p.Run(t.Context(), random.Key{Seed: 3, Replication: replication})
			if err != nil {
				t.Fatal(err)
			}
			for i := range 2 {
				sum += rec.Months[i].Vessels.Mean / 8
			}
		}
		return sum
	}
	f, err := withOpening("opening: {vessels_in_use: 4}\n")
	if err != nil {
		t.Fatal(err)
	}
	empty, err := withOpening("opening: {product: 1 m3}\n")
	if err != nil {
		t.Fatal(err)
	}
	warm, begun, bare := mean(demo.Model), mean(f.Model), mean(empty.Model)
	t.Logf("vessels in use in the first two months: %.2f after a warm-up, %.2f begun with four, %.2f begun with none", warm, begun, bare)
	if math.Abs(begun-warm) > 0.15*warm || math.Abs(bare-warm) < math.Abs(begun-warm) {
		t.Errorf("vessels in use in the first two months: %.2f after a warm-up, %.2f begun with four, %.2f begun with none", warm, begun, bare)
	}
}

// What is begun with does not change with inputs that are not known for sure, and a run
// of a replication can be made of it.
func TestOpeningStaysWhereInputsAreUncertain(t *testing.T) {
	f, err := withOpening(opening)
	if err != nil {
		t.Fatal(err)
	}
	m, _ := f.Planning.Draw(f.Model, random.Key{Seed: 1, Replication: 3})
	if m.Opening != f.Model.Opening {
		t.Error("another opening")
	}
	if m.Vessels.Residence < sim.Day {
		t.Errorf("a residence of %v", m.Vessels.Residence)
	}
}
