package filetest

import (
	"strings"
	"testing"

	"loamcast/scenarios/facilityfile"
)

// A plant runs with any setback at either of its bounds, in the middle of its year.
func TestPlantsWithSetbacksAtTheBoundsRun(t *testing.T) {
	text, err := Short(readFile(t, "small.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	text = withoutHours(text)
	ran := 0
	for _, k := range facilityfile.Keys() {
		name, ok := strings.CutPrefix(k.Path, "setbacks[].")
		if !ok || k.Kind != facilityfile.Quantity && k.Kind != facilityfile.Count {
			continue
		}
		for _, bound := range []float64{k.Low, k.High} {
			entry := "from: 04-01, for: 2 month, cake_solids: -1 %, " + name + ": " + Written(bound, k.Dimension)
			switch {
			case name == "vessels_out":
				entry = "for: 6 week, vessels_out: 1" // more are refused
			case name == "for":
				entry = "from: 04-01, production: 10 %, for: " + Written(bound, k.Dimension)
			case name == "cake_solids":
				continue // beyond what cake can be; those that are not are tried below
			}
			f, err := facilityfile.Parse("plant.yaml", []byte(text+"setbacks: [{name: a, "+entry+"}]\n"))
			if err != nil {
				t.Errorf("%s: %v", entry, err)
				continue
			}
			m := f.Model
			f.Planning.Setbacks[0].Put(&m, m.Start.AddMonths(3))
			if len(m.Outages)+len(m.Spells) != 1 || len(f.Model.Outages)+len(f.Model.Spells) != 0 {
				t.Errorf("%s: %+v and %+v are put", entry, m.Outages, m.Spells)
			}
			ran++
			if err := simulated(t.Context(), m); err != nil {
				t.Errorf("%s: %v", entry, err)
			}
		}
	}
	for _, solids := range []string{"-12 %", "30 %"} {
		f, err := facilityfile.Parse("plant.yaml", []byte(text+"setbacks: [{name: a, from: 04-01, for: 2 month, cake_solids: "+solids+"}]\n"))
		if err != nil {
			t.Fatal(err)
		}
		m := f.Model
		f.Planning.Setbacks[0].Put(&m, m.Start.AddMonths(3))
		ran++
		if err := simulated(t.Context(), m); err != nil {
			t.Errorf("cake solids %s: %v", solids, err)
		}
	}
	if ran < 14 {
		t.Errorf("only %d plants ran", ran)
	}
}
