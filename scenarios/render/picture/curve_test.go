package picture

import (
	"math"
	"testing"
)

// The name of an upright stands at the top of a chart, and at its bottom where something is
// in the way at the top and nothing at the bottom.
func TestNamesOfUprightsStandFree(t *testing.T) {
	level := func(values ...float64) series { return steps{line{points: points{values: values}}} }
	for _, c := range []struct {
		name string
		with []series
		low  bool
	}{
		{"nothing is in the way", []series{level(5, 8)}, false},
		{"at the top alone", []series{level(5, 10), curve{y: []float64{3, math.NaN()}}}, true},
		{"at both", []series{level(5, 10), curve{y: []float64{0.2}}}, false},
		{"bars stand on the axis", []series{level(5, 10), bars{points: points{values: []float64{4}}}}, false},
		{"nothing is drawn", []series{level(math.NaN())}, false},
	} {
		list := named(append(c.with, upright{x: 1, name: "order 9"}), 10)
		if got := list[len(list)-1].(upright).low; got != c.low {
			t.Errorf("%s: at the bottom %t", c.name, got)
		}
	}
}
