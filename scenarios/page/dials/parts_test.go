package dials

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// together writes the values of a key as the page does.
func together(p *Parts) string {
	var values []string
	for _, one := range p.List {
		value := one.Value
		if value == "" {
			continue
		}
		if one.Wrapped {
			value = "[" + value + "]"
		}
		if one.Key != "" {
			value = one.Key + ": " + value
		}
		values = append(values, value)
	}
	return p.Open + strings.Join(values, ", ") + p.Close
}

// A key of several values is taken apart, however it is written, and what is put together
// again means the same.
func TestPartsMeanTheSame(t *testing.T) {
	tried := map[string]bool{}
	for _, name := range []string{"dunmarrow", "pellwick", "fennick-valley"} {
		data := examples.Data(name)
		was, _ := Read(name, data)
		x, err := read(data)
		if err != nil {
			t.Fatal(err)
		}
		for _, w := range x.order {
			path := w.Path
			if whole, of := wholeOf(path); of != nil {
				path = whole
			}
			parts := x.field(path).Parts
			if parts == nil || strings.Contains(path, "[") {
				continue
			}
			changed, problems := Apply(data, []Setting{{path, together(parts)}})
			f, wrong := Read(name, changed)
			if len(problems) > 0 || f == nil {
				t.Errorf("%s: %s as %s: %v %v", name, path, together(parts), problems, wrong)
				continue
			}
			if !reflect.DeepEqual(f.Model, was.Model) || !reflect.DeepEqual(f.Planning.Economy.Prices, was.Planning.Economy.Prices) {
				t.Errorf("%s: %s as %s means something else", name, path, together(parts))
			}
			tried[path] = true
		}
	}
	for _, path := range []string{"solids.by_month", "solids.cake_solids", "solids.by_weekday", "hours.week", "chips.moisture", "site.temperature"} {
		if !tried[path] {
			t.Errorf("%s was not taken apart; %v were", path, tried)
		}
	}
}

// Values are given to their months and days by name, those that are left out too; what is
// one value for all is one for each. A list of another length is mended as a whole.
func TestParts(t *testing.T) {
	of := func(path, value string) *Parts {
		t.Helper()
		data, problems := Apply(examples.Data("dunmarrow"), []Setting{{path, value}})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		fields, err := Of(data, []string{path})
		if err != nil {
			t.Fatal(err)
		}
		return fields[0].Parts
	}
	months := of("solids.cake_solids", "23 %")
	if !months.Same || !months.Numbers || len(months.List) != 12 || months.List[11].Label != "December" || months.List[2].Value != "23 %" || months.List[2].Place != "solids.cake_solids[3]" {
		t.Errorf("one for all is %+v", months)
	}
	if got := of("solids.cake_solids", "{jan: 20 %, feb: 21 %, mar: 22 %, apr: 22 %, may: 22 %, jun: 22 %, jul: 22 %, aug: 22 %, sep: 22 %, oct: 22 %, nov: 22 %, dec: 23 %}"); got.Same || got.Open != "{" || got.List[1].Value != "21 %" || got.List[1].Place != "solids.cake_solids.feb" {
		t.Errorf("by name they are %+v", got)
	}
	week := of("hours.week", "{mon: [07:00-12:00, 13:00-16:00], tue: [06:00-14:00]}")
	if week.Numbers || week.List[0].Label != "Monday" || week.List[0].Value != "07:00-12:00, 13:00-16:00" || week.List[6].Value != "" || week.List[6].Default == "" || week.List[6].Key != "sun" {
		t.Errorf("a week is %+v", week)
	}
	if got := of("solids.cake_solids", "[20 %, 21 %]"); got != nil {
		t.Errorf("two of twelve are %+v", got)
	}
	if got := of("vessels.residence", "21 day"); got != nil {
		t.Errorf("one value is %+v", got)
	}
}

// A dial that is turned shows the values that it is turned to.
func TestTurned(t *testing.T) {
	data := examples.Data("dunmarrow")
	paths := []string{"solids.cake_solids", "hours.week", "vessels.residence"}
	fields, err := Of(data, paths)
	if err != nil {
		t.Fatal(err)
	}
	Turned(data, fields, []Setting{{"solids.cake_solids", "25 %"}, {"hours.week", "nonsense\nof lines"}, {"vessels.residence", "30 day"}})
	if p := fields[0].Parts; p == nil || p.List[4].Value != "25 %" {
		t.Errorf("turned to another value it is %+v", p)
	}
	if fields[0].Value != "23 %" || fields[1].Parts != nil || fields[2].Parts != nil {
		t.Errorf("the others are %+v", fields[1:])
	}
}

// What is wrong with one of several values is told with its place, which is that of its part.
func TestProblemsOfParts(t *testing.T) {
	for _, c := range []struct{ path, value, place string }{
		{"solids.by_month", "[1, 1, plenty, 1, 1, 1, 1, 1, 1, 1, 1, 1]", "solids.by_month[3]"},
		{"hours.week", "{mon: [07:00-15:30], tue: [25:00-15:30]}", "hours.week.tue[1]"},
		{"solids.cake_solids", "much", "solids.cake_solids"},
	} {
		data, problems := Apply(examples.Data("dunmarrow"), []Setting{{c.path, c.value}})
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		f, problems := Read("plant.yaml", data)
		if f != nil || len(problems) != 1 || problems[0].Place != c.place || !strings.HasPrefix(problems[0].Path, c.path) {
			t.Errorf("%s: %+v", c.value, problems)
		}
	}
}

// A search for a week finds the whole week before its days.
func TestSearchFindsWhole(t *testing.T) {
	found, err := Search(examples.Data("dunmarrow"), "hours week")
	if err != nil {
		t.Fatal(err)
	}
	if at := slices.IndexFunc(found, func(f Field) bool { return f.Parts != nil }); at != 0 || found[0].Path != "hours.week" {
		t.Errorf("found are %+v", found)
	}
	if k := keys()["hours.week"]; k == nil || k.Kind != facilityfile.Group {
		t.Errorf("the week is %+v", k)
	}
}
