package process

import (
	"bytes"
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"loamcast/facility/material"
)

// keptTables are tables of all that changes what is kept of a course: criteria, programs
// that wait, turnings, ice, loads that begin at what they were tipped with, and drying.
func keptTables() map[string]func() *Responses {
	of := func(m *Model, hours float64) func() *Responses {
		return func() *Responses { return NewResponses(m, hours) }
	}
	holding := DefaultVesselModel()
	holding.Criteria = []Criterion{PathogenReduction(), VectorAttractionReduction()}
	holding.Program = DefaultHold(holding.Criteria)
	turned := DefaultCuringModel()
	turned.Criteria, turned.Turning = nil, DefaultTurning()
	pile := tippedPad()
	pile.Criteria = nil
	return map[string]func() *Responses{
		"vessel":  of(DefaultVesselModel(), tableHours),
		"holding": of(holding, tableHours),
		"lively":  of(livelyModel(), tableHours),
		"air":     of(structured(), tableHours),
		"turned":  of(turned, 1500),
		"tipped":  of(pile, 1500),
		"drying":  func() *Responses { return NewDryingResponses(DefaultVesselModel(), DryingAir, 721) },
	}
}

// askedAll asks a table about loads, from the first or from the last, and returns what
// each is after some days, and when its criteria are met.
func askedAll(t *testing.T, r *Responses, backwards bool) map[int]any {
	t.Helper()
	rng := rand.New(rand.NewPCG(21, 22))
	loads := make([]material.Parcel, 8)
	for i := range loads {
		loads[i] = plantLoad(rng, time.Month(1+i%3))
	}
	out := map[int]any{}
	for i := range loads {
		if backwards {
			i = len(loads) - 1 - i
		}
		p := loads[i]
		s, err := r.from(p, time.Month(1+i%3), 42)
		if err != nil {
			t.Fatal(err)
		}
		s.Apply(&p, 0, 100)
		s.Apply(&p, 100, 333)
		var met []Met
		for c := range r.m.Criteria {
			hours, ok := s.Met(c)
			met = append(met, Met{hours, ok})
		}
		out[i] = []any{p, met, s.Temperature(77), s.air(200)}
	}
	return out
}

// collected returns the courses that a table has integrated.
func collected(r *Responses) map[Point][]byte {
	courses := map[Point][]byte{}
	for at, course := range r.Added() {
		courses[at] = bytes.Clone(course)
	}
	return courses
}

// A table that is given what another has kept integrates none of it again and answers to
// the last bit as that one did, whatever is asked first; and what it was given is, to the
// last field, what is integrated.
func TestKeptCoursesAreThoseIntegrated(t *testing.T) {
	if n := reflect.TypeFor[node]().NumField(); n != 7 {
		t.Errorf("a node has %d fields: are all of them kept?", n)
	}
	if n := reflect.TypeFor[timeline]().NumField(); n != 3 {
		t.Errorf("a timeline has %d fields: are all of them kept?", n)
	}
	for name, make := range keptTables() {
		t.Run(name, func(t *testing.T) {
			plain := askedAll(t, make(), false)
			first := make()
			first.Recall(func(Point, func([]byte)) {})
			cold := askedAll(t, first, false)
			courses := collected(first)
			if len(courses) < 20 {
				t.Fatalf("%d courses are kept", len(courses))
			}
			second := make()
			second.Recall(func(at Point, over func([]byte)) {
				if course, ok := courses[at]; ok {
					over(course)
				}
			})
			warm := askedAll(t, second, true)
			if !reflect.DeepEqual(cold, plain) || !reflect.DeepEqual(warm, plain) {
				t.Errorf("without what is kept\n%v\nwith it\n%v\nwhen it was kept\n%v", plain, warm, cold)
			}
			if n := len(collected(second)); n > 0 {
				t.Errorf("%d courses are integrated again", n)
			}
			for at, e := range first.nodes {
				if recalled := second.nodes[at]; recalled == nil || !reflect.DeepEqual(recalled.value, e.value) {
					t.Errorf("at %v there is\n%+v\nand was\n%+v", at, recalled, e.value)
				}
			}
		})
	}
}

// What does not fit a table is integrated as if nothing were kept: courses cut short or
// too long, of a program that waits where none does, or of another table.
func TestKeptCourseThatDoesNotFit(t *testing.T) {
	vessel := keptTables()["vessel"]
	want := askedAll(t, vessel(), false)
	first := vessel()
	first.Recall(func(Point, func([]byte)) {})
	askedAll(t, first, false)
	good := collected(first)
	for name, spoil := range map[string]func([]byte) []byte{
		"cut":        func(b []byte) []byte { return b[:len(b)-8] },
		"one byte":   func(b []byte) []byte { return b[:1] },
		"too long":   func(b []byte) []byte { return append(bytes.Clone(b), make([]byte, 8)...) },
		"it waits":   func(b []byte) []byte { return append([]byte{b[0] | isTimed}, b[1:]...) },
		"text":       func([]byte) []byte { return []byte("no course") },
		"other grid": func([]byte) []byte { return make([]byte, 1+8*(1+4*40)) },
	} {
		r := vessel()
		r.Recall(func(at Point, over func([]byte)) {
			if b := good[at]; len(b) > 0 {
				over(spoil(b))
			}
		})
		if got := askedAll(t, r, false); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %v, not %v", name, got, want)
		}
		if n := len(collected(r)); n != len(good) {
			t.Errorf("%s: %d courses are integrated, not all %d", name, n, len(good))
		}
	}
}
