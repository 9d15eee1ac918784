package facilityfile

import (
	"strings"
	"testing"
)

// In a plant of several classes the vessels in use on the first day are listed, each with
// its class; a number of them does not say which they are.
func TestOpeningOfClasses(t *testing.T) {
	text := strings.Replace(editedClasses(t), "warm_up: 1 year\n", "", 1)
	for opening, want := range map[string]string{
		"{vessels_in_use: 3}": "opening.vessels_in_use: of which class the vessels in use are cannot be told",
		"{vessels: [{loaded: 2026-12-20, cake_dry: 2 short ton}]}":                                                                "opening.vessels[1].loaded: it is not said of which class",
		"{vessels: [{loaded: 2026-12-20, class: huge}]}":                                                                          "opening.vessels[1].class: ",
		"{vessels: [{loaded: 2026-12-20, class: large}, {loaded: 2026-12-22, class: large}, {loaded: 2026-12-24, class: large}]}": "opening.vessels[3]: 3 large vessels are in use, but 2 installed",
		"{vessels: [{loaded: 2026-12-20, class: large}, {loaded: 2026-12-22, class: small}, {loaded: 2026-12-24, class: small}]}": "",
		"{product: 200 yd3}": "",
	} {
		_, err := Parse("classes.yaml", []byte(text+"\nopening: "+opening+"\n"))
		switch {
		case want == "" && err != nil:
			t.Errorf("%s: %v", opening, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want) || strings.Count(err.Error(), "error:") != 1):
			t.Errorf("%s: %v, not %q alone", opening, err, want)
		}
	}
}

// A full load of a class is that of a plant with vessels of that class alone, and one of
// which the cake is said has as much.
func TestOpeningLoadsFitTheirClass(t *testing.T) {
	text := strings.Replace(editedClasses(t), "warm_up: 1 year\n", "", 1)
	f, err := Parse("classes.yaml", []byte(text+"\nopening: {vessels: [{loaded: 2026-12-20, class: large}, {loaded: 2026-12-20, class: small}, {loaded: 2026-12-20, class: small, cake_dry: 1 t}]}\n"))
	if err != nil {
		t.Fatal(err)
	}
	v := f.Model.Opening.Vessels
	if len(v) != 3 || v[0].Class != 0 || v[1].Class != 1 || v[2].Class != 1 || v[2].Cake.Dry() != 1000 {
		t.Fatalf("in vessels are %+v", v)
	}
	for class := range 2 {
		one := f.Model.AsClass(class)
		load := v[class].Load
		wet, volume := load.Total()/one.Vessels.Payload, f.Model.Bulk.VolumeOf(&load)/one.Vessels.Volume
		if fullest := max(wet, volume); fullest < 1-1e-6 || fullest > 1+1e-6 {
			t.Errorf("the load of class %d fills %g of the payload and %g of the volume", class, wet, volume)
		}
	}
}
