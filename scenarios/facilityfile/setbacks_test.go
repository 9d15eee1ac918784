package facilityfile

import (
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

func withSetbacks(t *testing.T, file, list string) (*File, error) {
	t.Helper()
	data, err := os.ReadFile("testdata/" + file)
	if err != nil {
		t.Fatal(err)
	}
	return Parse("plant.yaml", []byte(string(data)+"\nsetbacks:\n"+list))
}

// Setbacks are read as they are written: points, and a difference of temperatures, of
// which 9 °F are 5 °C. The model is the one of the file without them.
func TestSetbacksAreRead(t *testing.T) {
	f, err := withSetbacks(t, "classes.yaml", `  - {name: one out, vessels_out: 1, class: small, for: 6 week}
  - {name: wet winter, from: 11-01, for: 5 month, cake_solids: -1.5 %, chip_moisture: 8 %, temperature: -9 °F, humidity: 5 %, production: 10 %}
`)
	if err != nil {
		t.Fatal(err)
	}
	want := []Setback{
		{Name: "one out", For: calendar.Span{Days: 42}, Vessels: 1, Class: 1},
		{Name: "wet winter", For: calendar.Span{Months: 5}, Begins: time.November,
			Spell: plant.Spell{CakeSolids: -0.015, ChipMoisture: 0.08, Temperature: -5, Humidity: 0.05, Production: 0.1}},
	}
	if !reflect.DeepEqual(f.Planning.Setbacks, want) {
		t.Errorf("read as %+v", f.Planning.Setbacks)
	}
	if f.Model.Outages != nil || f.Model.Spells != nil {
		t.Error("a run of the file meets them")
	}
	m, day := f.Model, calendar.Date{Year: 2030, Month: 2, Day: 1}
	for i := range want {
		f.Planning.Setbacks[i].Put(&m, day)
	}
	if want := (plant.Outage{Date: day, For: 42 * sim.Day, Vessels: 1, Class: 1}); len(m.Outages) != 1 || m.Outages[0] != want {
		t.Errorf("the outage is %+v", m.Outages)
	}
	if len(m.Spells) != 1 || m.Spells[0].From != day || m.Spells[0].For != want[1].For || m.Spells[0].Temperature != -5 {
		t.Errorf("the season is %+v", m.Spells)
	}
}

// What makes no sense is refused, each with its line and once.
func TestSetbacksThatAreRefused(t *testing.T) {
	for entry, want := range map[string]string{
		"{name: a, for: 6 week}":                                       "sets nothing back",
		"{name: a, for: 6 week, from: 11-01}":                          "sets nothing back",
		"{name: a, for: 6 week, vessels_out: 1, from: 11-01}":          "tried in every month",
		"{name: a, for: 6 week, vessels_out: 1, humidity: 5 %}":        "make two setbacks",
		"{name: a, for: 6 week, vessels_out: 99}":                      "let fewer fail",
		"{name: a, for: 6 week, vessels_out: 1, class: small}":         "of one class",
		"{name: a, for: 6 week, from: 11-01, humidity: 5 %, class: x}": "no vessels fail",
		"{name: a, for: 5 month, humidity: 5 %}":                       "has no beginning",
		"{name: a, for: 5 month, from: 11-02, humidity: 5 %}":          "11-02",
		"{name: a, for: 5 month, from: 11-01, cake_solids: -15 %}":     "keep it from 8 % to 50 %",
		"{name: a, for: 5 month, from: 11-01, temperature: -2}":        "-2",
		"{name: a, for: 13 month, from: 11-01, humidity: 5 %}":         "out of range",
		"{for: 6 week, vessels_out: 1}":                                "name",
	} {
		_, err := withSetbacks(t, "small.yaml", "  - "+entry+"\n")
		if err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "error:") != 1 {
			t.Errorf("%s: %v", entry, err)
		}
	}
	if _, err := withSetbacks(t, "small.yaml", "  - {name: a, for: 6 week, vessels_out: 1}\n  - {name: a, for: 7 week, vessels_out: 1}\n"); err == nil {
		t.Error("two of one name are taken")
	}
	if _, err := withSetbacks(t, "classes.yaml", "  - {name: a, for: 6 week, vessels_out: 1}\n"); err == nil || !strings.Contains(err.Error(), "class: large, or class: small") {
		t.Errorf("vessels of no class: %v", err)
	}
}
