package setback

import (
	"errors"
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim"
)

func smallPlant(t *testing.T, workers int, more string) *study.Study {
	t.Helper()
	data, err := os.ReadFile("../facilityfile/testdata/small.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f, err := facilityfile.Parse("small.yaml", []byte(string(data)+more))
	if err != nil {
		t.Fatal(err)
	}
	f.Model.Years = 3
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

const list = `
setbacks:
  - {name: all out, vessels_out: 1, for: 8 week}
  - {name: wet spring, from: 03-01, for: 2 month, cake_solids: -2 %, chip_moisture: 10 %, temperature: -3 °C, production: 20 %}
`

// What the answer says of a setback is what two plants show that are simulated by
// themselves, one that meets it and one that does not, and does not depend on the number of
// workers.
func TestAskComparesTheSameLuck(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 150 runs twice; the round without -short has it")
	}
	s := smallPlant(t, 1, list)
	o := Options{Year: s.File.Model.Start.AddYears(1).String()[:4], Runs: leastRuns, Wrong: 0.05}
	a, err := Ask(t.Context(), s, answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	if len(a.Setbacks) != 2 || a.Assumed || len(a.Setbacks[0].Years) != 1 || len(a.Setbacks[0].Years[0].Begins) != 12 || len(a.Setbacks[1].Years[0].Begins) != 1 {
		t.Fatalf("%+v", a.Setbacks)
	}
	untreated := func(alter func(*plant.Model), from int) (sum float64) {
		for replication, growth := range s.File.Planning.ShareOut(leastRuns) {
			c := study.Case{Growth: growth, First: 1, Years: 2, Alter: alter}
			r, err := s.Simulate(t.Context(), study.Run{Case: &c, Replication: replication})
			if err != nil {
				t.Fatal(err)
			}
			sum += plant.Sum(r.Record.Months[from:from+12], (*plant.Month).Untreated) / leastRuns
		}
		return sum
	}
	lossless := true
	for i := range a.Setbacks {
		one := &a.Setbacks[i]
		b := &one.Years[0].Begins[one.Years[0].Most]
		after := int(b.From.Month-s.File.Model.Start.Month+12) % 12
		with := untreated(func(m *plant.Model) {
			if one.Fails() {
				m.Outages = []plant.Outage{{Date: b.From, For: 56 * sim.Day, Vessels: 1}}
				return
			}
			m.Spells = []plant.Spell{{From: b.From, For: one.For, CakeSolids: -0.02, ChipMoisture: 0.1, Temperature: -3, Production: 0.2}}
		}, after)
		without := untreated(nil, after)
		if math.Abs(with-without-b.Untreated.Mean) > 1e-9*(with+1) {
			t.Errorf("%s from %v: %g kg by the answer, %g − %g", one.Name, b.From, b.Untreated.Mean, with, without)
		}
		lossless = lossless && with == without
	}
	if lossless {
		t.Error("nothing was lost at all: the test compares nothing")
	}
	if b := a.Setbacks[1].Years[0].Begins[0]; b.From.Month != time.March || b.From.Year-s.File.Model.Start.Year > 2 {
		t.Errorf("the season begins on %v", b.From)
	}
	other, err := Ask(t.Context(), smallPlant(t, 2, list), answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(a.Setbacks, other.Setbacks) {
		t.Error("two workers answer otherwise than one")
	}
}

// A file without a list gets one of its largest vessels and its coldest months; a name
// that is in no list, and a year out of the horizon, are refused with what there is.
func TestUsualSetbacks(t *testing.T) {
	f, err := facilityfile.Open("../facilityfile/testdata/classes.yaml")
	if err != nil {
		t.Fatal(err)
	}
	tried := usual(f)
	if len(tried) != 2 || tried[0].Vessels != 1 || f.Model.Vessels.ClassName(tried[0].Class) != "large" || tried[0].For.Days != 42 {
		t.Errorf("%+v fails", tried)
	}
	months := [12]float64{4, 1, 2, 9, 12, 15, 18, 18, 15, 10, 6, 0}
	if got := coldest(months); got != time.December {
		t.Errorf("the three months from %v on are coldest, by hand 0 + 4 + 1 from December", got)
	}
	f.Model.Vessels.Installed = 0
	if none := usual(f); len(none) != 1 || none[0].Fails() {
		t.Errorf("of no vessels %+v fail", none)
	}
	s := smallPlant(t, 0, list)
	for o, want := range map[Options]string{
		{Name: "dry spring"}: `"all out", "wet spring"`,
		{Year: "1999"}:       "the horizon is",
		{Runs: 1}:            "ask for",
	} {
		var wrong *answer.OptionError
		if _, err := Ask(t.Context(), s, answer.Setup{}, o); !errors.As(err, &wrong) || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: %v", o, err)
		}
	}
}

// A plant that waits for a sign is simulated from its start on, and the two years from that
// in which the setback begins are told.
func TestAskOfAPlantThatWaitsForASign(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 130 runs of four years; the round without -short has it")
	}
	s := smallPlant(t, 0, "changes: [{name: more room, when: {held_above: 60 %, for: 1 day}, holding_dry: 200 kg}]\n"+list)
	const year = 2
	a, err := Ask(t.Context(), s, answer.Setup{}, Options{Name: "all out", Year: "2029", Runs: leastRuns})
	if err != nil {
		t.Fatal(err)
	}
	y := &a.Setbacks[0].Years[0]
	if y.Year != year || y.Begins[0].From != s.File.Model.Start.AddYears(year) {
		t.Fatalf("year %d, from %v", y.Year, y.Begins[0].From)
	}
	solids := 0.0
	for replication, growth := range s.File.Planning.ShareOut(leastRuns) {
		r, err := s.Simulate(t.Context(), study.Run{Case: &study.Case{Growth: growth, Years: year + 1}, Replication: replication})
		if err != nil {
			t.Fatal(err)
		}
		solids += plant.Sum(r.Record.Months[12*year:], func(m *plant.Month) float64 { return m.Feed.Dry }) / leastRuns
	}
	if got := y.Begins[0].solids; math.Abs(got/solids-1) > 1e-9 {
		t.Errorf("%g kg come in in the year by the answer, %g in whole runs", got, solids)
	}
}
