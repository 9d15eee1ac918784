package facilityfile

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/screening"
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

func readSmall(t testing.TB) string {
	t.Helper()
	data, err := os.ReadFile("testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// parse reads the small file after edits: old, new, old, new …
func parse(t *testing.T, edits ...string) *File {
	t.Helper()
	text := readSmall(t)
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q is there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	f, err := Parse("small.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every quantity of the file arrives in the model's unit. The conversions are
// arithmetic on the exact units (NIST Handbook 44 App. C, from memory): 1 lb =
// 0.45359237 kg, 1 yd3 = 0.764554857984 m3, 1 short ton = 907.18474 kg, 1 cfm =
// 1.699010796 m3/h.
func TestQuantitiesArriveInModelUnits(t *testing.T) {
	m := parse(t).Model
	const yd3, lb = 0.764554857984, 0.45359237
	vessel, pile := m.Active, m.Pile
	for _, c := range []struct {
		key       string
		got, want float64
	}{
		{"site.altitude", vessel.Site.Altitude, 1350 * 0.3048},
		{"site.temperature of January", vessel.Site.Temperature[0], 10.0 / 9},
		{"site.temperature of July", pile.Site.Temperature[6], 43 / 1.8},
		{"site.humidity", pile.Site.Humidity[11], 0.65},
		{"solids.dry_per_day", m.Feed.Base, 85},
		{"solids.growth", m.Feed.Growth.Factor(1) / m.Feed.Growth.Factor(0), 1.022},
		{"solids.by_month of August", m.Feed.Month[7], 1.22},
		{"solids.by_weekday of Monday", m.Feed.Weekday[time.Monday], 1.1},
		{"solids.by_weekday of Sunday", m.Feed.Weekday[time.Sunday], 0.75},
		{"solids.by_weekday of Saturday", m.Feed.Weekday[time.Saturday], 0.75},
		{"solids.day_to_day.variation", m.Feed.Noise.CV, 0.18},
		{"solids.day_to_day.correlation", m.Feed.Noise.Correlation, 0.6},
		{"solids.cake_solids", m.Feed.CakeSolids[5], 0.2},
		{"solids.cake_solids_variation", m.Feed.SolidsCV, 0.04},
		{"cake.moisture", m.Cake.Moisture, 0.8},
		{"cake.volatile_solids", m.Cake.Volatile, 0.79},
		{"cake.readily_degradable", m.Cake.Readily, 0.56},
		{"cake.slowly_degradable", m.Cake.Slowly, 0.08},
		{"cake.nitrogen", m.Cake.Nitrogen, 0.052},
		{"cake.carbon", m.Cake.Carbon, 0.44},
		{"cake is all fine", m.Cake.Coarse, 0},
		{"holding.capacity_dry", m.Holding.Capacity, 2600},
		{"holding.start_load_with", m.Holding.StartWith, 0.9},
		{"chips.bulk_density", m.Chips.Fresh.BulkDensity, 490 * lb / yd3},
		{"chips.moisture", m.Chips.Moisture[3], 0.38},
		{"chips.fines", m.Chips.Fresh.Coarse, 0.96},
		{"dry coarse per volume of chips", m.Bulk.CoarseDry, 490 * lb / yd3 * 0.62 * 0.96},
		{"the same in the vessel", vessel.Bulk.CoarseDry, m.Bulk.CoarseDry},
		{"the same in the pile", pile.Bulk.CoarseDry, m.Bulk.CoarseDry},
		{"chips.store", m.Chips.Capacity, 60 * yd3},
		{"chips.reorder_at", m.Chips.Reorder, 20 * yd3},
		{"chips.order_up_to", m.Chips.OrderUpTo, 56 * yd3},
		{"chips.truckload", m.Chips.Truckload, 30 * yd3},
		{"chips.lead_time", m.Chips.LeadTime.Days(), 8},
		{"chips.lead_time_variation", m.Chips.LeadCV, 0.35},
		{"mix.chips_to_cake", m.Recipe.ChipsPerCake, 2.5},
		{"mix.batch_volume", m.Mixer.Volume, 14 * yd3},
		{"mix.batch_scale", m.Mixer.Scale, 14500 * lb},
		{"mix.batch_time", m.Mixer.BatchTime.Hours(), 25.0 / 60},
		{"vessels.installed", float64(m.Vessels.Installed), 1},
		{"vessels.useful_volume", m.Vessels.Volume, 31 * yd3},
		{"vessels.payload", m.Vessels.Payload, 14 * 2000 * lb},
		{"vessels.residence", m.Vessels.Residence.Days(), 12},
		{"vessels.shortest_residence", m.Vessels.Minimum.Days(), 11},
		{"vessels.longest_residence", m.Vessels.Maximum.Days(), 16},
		{"vessels.turnaround", m.Vessels.Turnaround.Hours(), 36},
		{"vessels.part_filled_wait", m.Vessels.PartFilled.Days(), 6},
		{"curing.pad", m.Curing.Capacity, 45 * yd3},
		{"curing.time", m.Curing.Time.Days(), 21},
		{"curing.longest_time", m.Curing.Longest.Days(), 30},
		{"curing.aeration.setpoint", pile.Program[0].Setpoint, 45},
		{"curing.aeration.least_air", pile.Program[0].MinFlow, 1},
		{"curing.aeration.most_air", pile.Blower.PerDry, 30},
		{"screen.throughput", m.Screening.Settings.Capacity, 6 * yd3},
		{"screen.opening", m.Screening.Settings.Opening, 0.009525},
		{"screen.recovery", m.Screening.Settings.Recovery, 0.8},
		{"screen.moisture_limit", m.Screening.Settings.MoistureLimit, 0.46},
		{"screen.carry_over", m.Screening.Settings.CarryOver, 0.25},
		{"screen.rejects", m.Screening.Settings.Rejects, 0.015},
		{"screen.attrition", m.Screening.Settings.Attrition, 0.04},
		{"product.store", m.Product.Capacity, 14 * yd3},
		{"product.demand_per_day of April", m.Product.Demand[3], 2 * yd3},
		{"aeration.program.for", vessel.Program[0].Hours, 168},
		{"aeration.program.setpoint", vessel.Program[1].Setpoint, 50},
		{"aeration.program.least_air", vessel.Program[1].MinFlow, 2},
		{"aeration.blower_per_vessel", vessel.Blower.Capacity, 350 * 1.699010796},
		{"aeration.wall_loss", vessel.Enclosure.Conductance * vessel.Enclosure.Area, 25},
	} {
		if math.Abs(c.got-c.want) > 1e-9*math.Abs(c.want) {
			t.Errorf("%s: %.12g, want %.12g", c.key, c.got, c.want)
		}
	}
}

// What is no quantity arrives too.
func TestTheRestArrives(t *testing.T) {
	f := parse(t)
	if f.Name != "Small invented plant" || f.Path != "small.yaml" || f.Units != units.US || f.Replications != 2 || f.Seed != 1 || len(f.Warnings) != 0 {
		t.Errorf("%q, %q, %v, %d, %d, %v", f.Name, f.Path, f.Units, f.Replications, f.Seed, f.Warnings)
	}
	m := f.Model
	if m.Start != (calendar.Date{Year: 2027, Month: 1, Day: 1}) || m.Years != 1 || m.WarmUp != 0 || !m.Vessels.Early {
		t.Errorf("%v, %d, %d, %v", m.Start, m.Years, m.WarmUp, m.Vessels.Early)
	}
	want := []plant.Change{{Name: "vessels added", Date: calendar.Date{Year: 2027, Month: 10, Day: 1}, Vessels: 1}}
	if !reflect.DeepEqual(m.Changes, want) {
		t.Errorf("additions %v, want %v", m.Changes, want)
	}
	if got := parse(t, "units: us", "units: si").Units; got != units.SI {
		t.Errorf("units %v", got)
	}
}

// What the file leaves out takes the default that the starter file and the
// packages of the facility name.
func TestDefaults(t *testing.T) {
	f := parse(t,
		"warm_up: 0 year\nunits: us\nreplications: 2\nseed: 1\n", "",
		"  altitude: 1,350 ft\n", "", "  humidity: 65 %\n", "",
		"  growth: {compound: 2.2 %/year}\n", "", "  day_to_day: {variation: 18 %, correlation: 0.6}\n", "", "  cake_solids_variation: 4 %\n", "",
		"  by_month: [0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88]\n", "",
		"  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n", "",
		"  start_load_with: 90 %\n", "", "  fines: 4 %\n", "", "  lead_time_variation: 35 %\n", "",
		"  room_for: 3\n  additions: [{date: 2027-10-01, count: 1}]\n", "",
		"  shortest_residence: 11 day\n  longest_residence: 16 day\n  early_release: true\n  turnaround: 36 h\n  part_filled_wait: 6 day\n", "",
		"  longest_time: 30 day\n  aeration: {setpoint: 45 °C, least_air: 1 m3/t·h, most_air: 30 m3/t·h}\n", "",
		"  recovery: 80 %\n  moisture_limit: 46 %\n  carry_over: 25 %\n  rejects: 1.5 %\n  attrition: 4 %\n", "",
	)
	text := readSmall(t)
	tail := text[strings.Index(text, "hours:\n"):]
	g := parse(t, tail, "")
	m := f.Model
	if m.WarmUp != 1 || f.Units != units.US || f.Replications != 20 || f.Seed != 1 {
		t.Errorf("%d, %v, %d, %d", m.WarmUp, f.Units, f.Replications, f.Seed)
	}
	if m.Active.Site.Altitude != 0 || m.Active.Site.Humidity != constant(0.7) {
		t.Errorf("site %v", m.Active.Site)
	}
	feed := plant.Feed{Base: 85, Growth: plant.Compound{}, Month: constant(1), Weekday: [7]float64{1, 1, 1, 1, 1, 1, 1}, CakeSolids: constant(0.2)}
	if !reflect.DeepEqual(m.Feed, feed) {
		t.Errorf("feed %+v, want %+v", m.Feed, feed)
	}
	if m.Holding.StartWith != 1 || m.Chips.Fresh.Coarse != 0.96 || m.Chips.LeadCV != 0 {
		t.Errorf("%g, %g, %g", m.Holding.StartWith, m.Chips.Fresh.Coarse, m.Chips.LeadCV)
	}
	v := m.Vessels
	if len(m.Changes) != 0 || v.Minimum != 12*sim.Day || v.Maximum != 18*sim.Day || v.Early || v.Turnaround != sim.Day || v.PartFilled != 7*sim.Day {
		t.Errorf("vessels %+v", v)
	}
	if m.Curing.Longest != 42*sim.Day {
		t.Errorf("curing %+v", m.Curing)
	}
	screen := screening.DefaultSettings(0.009525)
	screen.Capacity = m.Screening.Settings.Capacity
	if m.Screening.Settings != screen {
		t.Errorf("screen %+v, want %+v", m.Screening.Settings, screen)
	}
	pile, vessel := process.DefaultCuringModel(), process.DefaultVesselModel()
	vessel.Blower.Turndown = process.DefaultTurndown
	if !reflect.DeepEqual(m.Pile.Program, pile.Program) || m.Pile.Blower != pile.Blower {
		t.Errorf("pile %+v, %+v", m.Pile.Program, m.Pile.Blower)
	}
	if !reflect.DeepEqual(g.Model.Active.Program, process.DefaultHold(process.DefaultCriteria())) || g.Model.Active.Blower != vessel.Blower || g.Model.Active.Enclosure != vessel.Enclosure ||
		!reflect.DeepEqual(g.Model.Active.Criteria, append(process.DefaultCriteria(), process.AirThroughout())) {
		t.Errorf("vessel %+v", g.Model.Active)
	}
	if !g.Model.Mixer.Hours.IsAlways() || !g.Model.Vessels.Hours.IsAlways() || !g.Model.Screening.Hours.IsAlways() {
		t.Error("without hours, work does not go on around the clock")
	}
}

// The forms of growth.
func TestGrowth(t *testing.T) {
	for _, c := range []struct {
		text string
		want plant.Growth
	}{
		{"{compound: 3 %/year}", plant.Compound{Rate: 0.03}},
		{"{linear: -1 %/year}", plant.Linear{Rate: -0.01}},
		{"{by_year: [1, 1.02, 1.5]}", plant.ByYear{1, 1.02, 1.5}},
		{"{logistic: {ceiling: 1.8, rate: 6 %/year}}", plant.Logistic{Ceiling: 1.8, Rate: 0.06}},
		// 1 January 2028 and 2029 are 365 and 731 days after the start.
		{"{by_calendar_year: {2027: 20000, 2029: 21000}}", plant.Lines{{At: 0, Value: 20000}, {At: 731 / 365.25, Value: 21000}}},
		{"{steps: [{date: 2028-01-01, factor: 1.2}]}", plant.Steps{{At: 365 / 365.25, Value: 1.2}}},
	} {
		got := parse(t, "{compound: 2.2 %/year}", c.text).Model.Feed.Growth
		if !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %#v, want %#v", c.text, got, c.want)
		}
	}
}

// The forms of a criterion.
func TestCriteria(t *testing.T) {
	thin := process.TimeTemperatureThin()
	thin.Name = "x"
	thick := process.TimeTemperature()
	thick.Name = "x"
	for _, c := range []struct {
		text string
		want process.Criterion
	}{
		{"at_least: 55 °C, for: 3 day", process.Criterion{Name: "x", Kind: process.Hold, Temperature: 55, Hours: 72}},
		{"at_least: 131 °F, for: 72 h", process.Criterion{Name: "x", Kind: process.Hold, Temperature: 55, Hours: 72}},
		{"above: 40 °C, mean_above: 45 °C, for: 11 day", process.Criterion{Name: "x", Kind: process.MeanAbove, Temperature: 40, Mean: 45, Hours: 264}},
		{"at_least: 40 °C, for: 5 day, peak_above: 55 °C, peak_for: 4 h", process.Criterion{Name: "x", Kind: process.HoldWithPeak, Temperature: 40, Hours: 120, Peak: 55, PeakHours: 4}},
		{"equation: solids 7 % and more", thick},
		{"equation: solids below 7 %", thin},
	} {
		for where, place := range map[string]process.Where{"vessel": process.InVessel, "vessel and curing": process.InVesselAndCuring} {
			m := parse(t, "{name: pathogen reduction, at_least: 55 °C, for: 3 day, where: vessel}", "{name: x, "+c.text+", where: "+where+"}").Model
			want := c.want
			want.Where = place
			if m.Active.Criteria[0] != want {
				t.Errorf("%s, %s: %+v, want %+v", c.text, where, m.Active.Criteria[0], want)
			}
			if !reflect.DeepEqual(m.Pile.Criteria, m.Active.Criteria) {
				t.Errorf("%s: the pile is judged otherwise than the vessel", c.text)
			}
		}
	}
}

// Open reads what Parse reads, and its errors are of this package.
func TestOpen(t *testing.T) {
	f, err := Open("testdata/small.yaml")
	if err != nil || f.Path != "testdata/small.yaml" {
		t.Errorf("%v, %v", f, err)
	}
	for _, path := range []string{"testdata", "testdata/none.yaml", "testdata/small.yaml/none.yaml", filepath.Join(t.TempDir(), "none.yaml")} {
		f, err := Open(path)
		var bad *Error
		if f != nil || !errors.As(err, &bad) || !strings.HasPrefix(err.Error(), path+": ") {
			t.Errorf("%s: %v, %v", path, f, err)
		}
	}
}
