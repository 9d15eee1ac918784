package facilityfile

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
)

// A sign is read as it is written, in changes and in the steps of options alike; the
// one sign leaves the other unset.
func TestSignsAreRead(t *testing.T) {
	const before, shortTon = "{held_above: 70 %, for: 20 day}", 907.18474 // kg
	for _, c := range []struct {
		when string
		want plant.Trigger
	}{
		{"{held_above: 80 %, for: 30 day}", plant.Trigger{Held: 0.8, For: 30 * sim.Day}},
		{"{for: 0 day, held_above: 80 %}", plant.Trigger{Held: 0.8}},
		{"{production: 160 kg/day}", plant.Trigger{Production: 160}},
		{"{production: 1.2 t/day}", plant.Trigger{Production: 1200}},
		{"{production: 0.66 short ton/day}", plant.Trigger{Production: 0.66 * shortTon}},
	} {
		f := parsePlanning(t, before, c.when)
		planned := parse(t, "format: 1\n", "format: 1\nchanges: [{name: a, when: "+c.when+", pad: 4 m3}]\n").Model.Changes
		for where, got := range map[string]plant.Change{"a step": f.Planning.Options[0].Steps[1].Change, "a change": planned[len(planned)-1]} {
			off := math.Abs(got.Trigger.Production - c.want.Production)
			got.Trigger.Production = c.want.Production
			if got.Trigger != c.want || off > 1e-9*c.want.Production || !got.Trigger.Waits() || got.Date.Valid() {
				t.Errorf("%s with %s: %+v, off by %g; want %+v", where, c.when, got.Trigger, off, c.want)
			}
		}
	}
}

// Whatever production a sign is written with, in the units of either system, is what
// is waited for, and what passes only in later years is not warned of.
func TestSignOfProductionComesBack(t *testing.T) {
	signed := readSmall(t)
	rapid.Check(t, func(t *rapid.T) {
		system := rapid.SampledFrom([]units.System{units.US, units.SI}).Draw(t, "units")
		text := units.Format(rapid.Float64Range(200, mostDryPerDay/2).Draw(t, "kg a day"), units.MassPerTime, system)
		want, err := units.Parse(text, units.MassPerTime)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Parse("small.yaml", []byte(signed+"changes: [{name: a, when: {production: "+`"`+text+`"`+"}, pad: 4 m3}]\n"))
		if err != nil {
			t.Fatal(err)
		}
		changes := f.Model.Changes
		if got := changes[len(changes)-1].Trigger; got != (plant.Trigger{Production: want}) {
			t.Fatalf("%s is read as %+v, want %g kg/day", text, got, want)
		}
		for _, w := range f.Warnings {
			if strings.Contains(w.Message, "production") {
				t.Fatalf("warned of %s: %v", text, w)
			}
		}
	})
}
