package dials

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/units"
)

// A file begins with the dials that it has: growth as planning follows it, of the
// scenarios where there are any.
func TestStart(t *testing.T) {
	for name, want := range map[string][]string{
		"fennick-valley": {"growth_scenarios[1].growth.logistic.rate", "growth_scenarios[2].growth.compound", "vessels.installed", "vessels.residence", "solids.cake_solids",
			"mix.chips_to_cake", "screen.recovery", "hours.week", "chips.price"},
		"dunmarrow": {"solids.growth.linear", "vessels.installed", "vessels.residence", "solids.cake_solids", "mix.chips_to_cake", "screen.recovery", "hours.week"},
	} {
		data := examples.Data(name)
		got, err := Start(data)
		if err != nil || !slices.Equal(got, want) {
			t.Errorf("%s: %v, %v", name, got, err)
		}
		fields, err := Of(data, got)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range fields {
			if f.Value == "" || f.Words == "" || f.Line == 0 || f.Fixed || f.Slider == nil && number.MatchString(f.Value) {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
	if _, err := Start([]byte("a: [")); err == nil {
		t.Error("a text that is not well-formed has dials")
	}
}

// What moves the answer most comes first, and what was there stays.
func TestRanked(t *testing.T) {
	data := examples.Data(examples.Demo)
	paths, err := Start(data)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Ranked(data, []string{"vessels.turnaround", "solids.growth", "yard.trucks", "screen.recovery"}, paths)
	if err != nil || got[0] != "vessels.turnaround" || got[1] != paths[0] || got[2] != paths[1] || got[3] != "screen.recovery" || len(got) != len(paths)+1 {
		t.Errorf("%v: %v", err, got)
	}
	slices.Sort(got)
	if len(slices.Compact(got)) != len(paths)+1 {
		t.Errorf("a dial is there twice: %v", got)
	}
}

// Every key of a file, with the value that the file has, is what the file says: put
// back as it is, the file does not change.
func TestFieldsAreOfTheFile(t *testing.T) {
	tried := 0
	for _, name := range []string{"dunmarrow", "pellwick"} {
		data := examples.Data(name)
		sections, err := Form(data, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range sections {
			for _, f := range s.Fields {
				if f.Fixed {
					continue
				}
				tried++
				same, problems := Apply(data, []Setting{{f.Path, f.Value}})
				if len(problems) > 0 || string(same) != string(data) && !strings.Contains(string(data), `"`+f.Value+`"`) {
					t.Errorf("%s: %s is %q: %v", name, f.Path, f.Value, problems)
				}
			}
		}
	}
	if tried < 150 {
		t.Errorf("only %d fields were tried", tried)
	}
}

// A slider is in the unit of the file: what it holds is what is written, its ends lie
// within what the key may be, and each of its steps is read without complaint of the unit.
func TestSlider(t *testing.T) {
	for _, c := range []struct {
		path, value    string
		low, high      float64
		unit           string
		decimals, step float64
	}{
		{"vessels.installed", "8", 4, 16, "", 0, 1},
		{"screen.recovery", "80 %", 0, 0, "%", 0, 0},
		{"chips.price", "11 USD/yd3", 5.6, 22, "USD/yd3", 1, 0.2},
		{"vessels.useful_volume", "41 yd3", 0, 0, "yd3", 0, 0},
	} {
		s := slider(keys()[c.path], c.value)
		if s == nil {
			t.Errorf("%s has no slider", c.path)
			continue
		}
		if s.Unit != c.unit || c.high > 0 && (s.Low != c.low || s.High != c.high || s.Step != c.step) {
			t.Errorf("%s: %+v", c.path, *s)
		}
	}
	all := facilityfile.Keys()
	rapid.Check(t, func(t *rapid.T) {
		k := &all[rapid.IntRange(0, len(all)-1).Draw(t, "key")]
		if k.Kind != facilityfile.Quantity || k.Low == k.High {
			return
		}
		x := rapid.Float64Range(k.Low, k.High).Draw(t, "value")
		written := units.Format(x, k.Dimension, rapid.SampledFrom([]units.System{units.US, units.SI}).Draw(t, "system"))
		s := slider(k, written)
		if s == nil {
			return
		}
		parts := number.FindStringSubmatch(written)
		value, _ := units.Parse(parts[1], units.Dimensionless)
		if math.Abs(s.At-value) > 1e-9*max(1, math.Abs(value)) || !(s.Low <= s.At && s.At <= s.High) || !(s.Step > 0) {
			t.Fatalf("%s: %s slides as %+v", k.Path, written, *s)
		}
		if n := (s.High - s.Low) / s.Step; n > 2.1*steps {
			t.Fatalf("%s: %s slides in %g steps", k.Path, written, n)
		}
	})
}

// A search finds keys by path, words or the name of an entry, those left out too.
func TestSearch(t *testing.T) {
	data := examples.Data(examples.Demo)
	for _, c := range []struct{ words, path string }{
		{"turnaround", "vessels.turnaround"}, {"Screen OPENING", "screen.opening"}, {"as expected growth", "growth_scenarios[2].growth.compound"},
		{"mixers", "mix.mixers"}, {"yard trucks", ""},
	} {
		found, err := Search(data, c.words)
		if err != nil {
			t.Fatal(err)
		}
		at := slices.IndexFunc(found, func(f Field) bool { return f.Path == c.path })
		if at < 0 && c.path != "" {
			t.Errorf("%q finds %+v", c.words, found)
		}
	}
	if found, _ := Search(data, "no such thing at all"); len(found) > 0 {
		t.Errorf("found %+v", found)
	}
	if found, _ := Search(data, " "); len(found) > 0 {
		t.Errorf("nothing finds %+v", found)
	}
	if found, _ := Search(data, "e"); len(found) != most {
		t.Errorf("found are %d", len(found))
	}
}

// What the reader says is given to the key that it is about.
func TestProblemsArePlaced(t *testing.T) {
	text := string(examples.Data("dunmarrow"))
	for _, c := range []struct{ old, new, path string }{
		{"residence: 20 day", "residence: soon", "vessels.residence"},
		{"growth: {linear: 1.2 %/year}", "growth: {linear: 12}", "solids.growth.linear"},
		{"day_to_day: {variation: 22 %, correlation: 0.5}", "day_to_day: {variation: 22 %, correlation: 7}", "solids.day_to_day.correlation"},
		{"-8 °C, -6 °C", "-8 °C, -6", "site.temperature"},
	} {
		if strings.Count(text, c.old) != 1 {
			t.Fatalf("%q is not there once", c.old)
		}
		f, problems := Read("plant.yaml", []byte(strings.Replace(text, c.old, c.new, 1)))
		if f != nil || len(problems) != 1 || problems[0].Path != c.path || problems[0].Line == 0 || problems[0].Warning {
			t.Errorf("%s: %+v", c.new, problems)
		}
	}
	f, problems := Read("plant.yaml", []byte(strings.Replace(text, "residence: 20 day", "residence: 23 day", 1)))
	if f == nil || !slices.ContainsFunc(problems, func(p Problem) bool { return p.Path == "vessels.residence" && p.Warning }) {
		t.Errorf("a warning is %+v", problems)
	}
	if f, problems := Read("plant.yaml", []byte("a: [")); f != nil || len(problems) != 1 {
		t.Errorf("%+v", problems)
	}
}
