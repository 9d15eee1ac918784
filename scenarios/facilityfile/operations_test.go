package facilityfile

import (
	"math"
	"os"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// Every quantity of operations arrives in the model's unit. Conversions as in
// read_test.go; 1 ft2 = 0.09290304 m2, and 1 cfm/ft2 = 18.288 m3/h per m2.
func TestOperationsArrive(t *testing.T) {
	f, err := Open("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m := f.Model
	const yd3 = 0.764554857984
	manure, more, longer := m.Feedstocks[0], m.Changes[0], m.Changes[1]
	for _, c := range []struct {
		key       string
		got, want float64
	}{
		{"solids.pulses.dry_per_day", m.Feed.Pulses[0].PerDay, 80},
		{"solids.pulses.for", float64(m.Feed.Pulses[0].Days), 14},
		{"feedstocks.dry_per_day", manure.PerDay[5], 20},
		{"feedstocks.by_weekday of Sunday", manure.Weekday[0], 0},
		{"feedstocks.variation", manure.CV, 0.3},
		{"feedstocks.solids", manure.Material.Moisture, 0.72},
		{"feedstocks.nitrogen", manure.Material.Nitrogen, 0.03},
		{"dewatering.rate_dry", m.Dewatering.Rate, 150},
		{"mix.power", m.Mixer.Power, 60},
		{"screen.power", m.Screening.Power, 25},
		{"mix.mixers", float64(m.Mixer.Count), 1},
		{"screen.screens", float64(m.Screening.Count), 1},
		{"vessels.maintenance.every", m.Vessels.Service.Every.Days(), 90},
		{"vessels.maintenance.takes", m.Vessels.Service.Takes.Days(), 5},
		{"yard.trucks", float64(m.Yard.Trucks.Count), 1},
		{"yard.move", m.Yard.Move.Hours(), 40.0 / 60},
		{"yard.aerated_places", float64(m.Yard.Places), 1},
		{"breakdowns.truck.repair", m.Yard.Trucks.Failure.Repair.Days(), 1},
		{"breakdowns.screen.every", m.Screening.Failure.Every.Days(), 20},
		// Windrows of (4 + 1)/2 × 1.5 m2 on every 7 m.
		{"curing.pad_area and pile", m.Curing.Capacity, 120 * 3.75 / 7},
		{"curing.readily_left", m.Curing.ReadilyLeft, 0.6},
		{"aeration.blowers", m.Air.Blowers, 400 * 1.699010796},
		{"biofilter.area", m.Air.Area, 120 * 0.09290304},
		{"biofilter.loading", m.Air.Loading, 4 * 18.288},
		{"biofilter.media", m.Media.Volume, 12 * yd3},
		{"biofilter.replaced_every", m.Media.Every.Days(), 3 * 365.25},
		{"changes.lead_time, months", float64(more.Lead.Months), 2},
		{"changes.pad", more.Pad, 20 * yd3},
		{"changes.holding_dry", more.Holding, 500},
		{"changes.screen_throughput", more.ScreenCapacity, 12 * yd3},
		{"changes.cake_solids", more.CakeSolids, 0.02},
		{"changes.when.held_above", longer.Trigger.Held, 0.6},
		{"changes.when.for", longer.Trigger.For.Days(), 10},
	} {
		if math.Abs(c.got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("%s: %.12g, want %.12g", c.key, c.got, c.want)
		}
	}
	if from := m.Feed.Pulses[0].From; from != (calendar.Date{Year: 2027, Month: 4, Day: 1}) || more.Date != (calendar.Date{Year: 2027, Month: 5, Day: 1}) {
		t.Errorf("a pulse from %v, a change on %v", from, more.Date)
	}
	if longer.Hours == nil || longer.Hours == m.Mixer.Hours || m.Screening.First {
		t.Error("the longer shift, or the order of curing and screening, was not read")
	}
}

// What a file leaves out of operations is never short and never breaks down.
func TestOperationsLeftOut(t *testing.T) {
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := Parse("small.yaml", data)
	if err != nil {
		t.Fatal(err)
	}
	m := f.Model
	none := plant.Failure{}
	if !reflect.DeepEqual(m.Yard, plant.Yard{}) || m.Mixer.Failure != none || m.Screening.Failure != none || m.Air != (plant.Air{}) ||
		m.Media != (plant.Media{}) || m.Dewatering.Rate != 0 || m.Feedstocks != nil || m.Vessels.Service != (plant.Maintenance{}) ||
		m.Mixer.Power != 0 || m.Vessels.Unlimited {
		t.Errorf("%+v", m)
	}
}

// Each number that a change adds arrives in its own field: they are all different.
func TestWhatAChangeAddsArrives(t *testing.T) {
	text, err := os.ReadFile("testdata/yard.yaml")
	if err != nil {
		t.Fatal(err)
	}
	from, to := "    vessels: 1\n    places: 1\n    trucks: 1\n    loaders: 1\n    operators: 1\n    mixers: 1\n    screens: 1\n", "    vessels: 2\n    places: 3\n    trucks: 4\n    loaders: 5\n    operators: 6\n    mixers: 7\n    screens: 8\n"
	if strings.Count(string(text), from) != 1 {
		t.Fatalf("%q is not in the file once", from)
	}
	f, err := Parse("yard.yaml", []byte(strings.Replace(string(text), from, to, 1)))
	if err != nil {
		t.Fatal(err)
	}
	c := f.Model.Changes[0]
	got, want := [7]int{c.Vessels, c.Places, c.Trucks, c.Loaders, c.Operators, c.Mixers, c.Screens}, [7]int{2, 3, 4, 5, 6, 7, 8}
	if got != want {
		t.Errorf("vessels, places, trucks, loaders, operators, mixers and screens: %v, want %v", got, want)
	}
}
