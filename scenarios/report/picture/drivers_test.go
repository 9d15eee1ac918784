package picture

import (
	"bytes"
	"fmt"
	"testing"

	"loamcast/scenarios/drivers"
	"loamcast/sim/sensitivity"
	"loamcast/sim/stats"
)

// There is a picture of the effects, and another of the shares if they are known.
// Both name the inputs, and of many only the first.
func TestDrivers(t *testing.T) {
	view := DriversView{Title: "A year: how far each input moves it", Unit: "years", Convert: func(v float64) float64 { return 2 * v }}
	for i := range mostRows + 3 {
		x := stats.Interval{Estimate: float64(20 - i), Low: 0, High: float64(25 - i)}
		view.Drivers = append(view.Drivers, drivers.Driver{Effect: sensitivity.Effect{MuStar: x}, Share: sensitivity.Share{First: stats.Interval{Estimate: -0.01}, Total: x}})
		view.Names, view.Ranges = append(view.Names, fmt.Sprintf("input %d.", i)), append(view.Ranges, "1 to 2 days")
	}
	a := &drivers.Answer{Facility: "Plant", Runs: 80, Seed: 3, Invented: true}
	if n := len(Drivers(a, view)); n != 1 {
		t.Errorf("%d pictures without shares", n)
	}
	a.Rows = 10
	list := Drivers(a, view)
	if len(list) != 2 {
		t.Fatalf("%d pictures with shares", len(list))
	}
	for i, p := range list {
		svg, err := p.SVG()
		if err != nil {
			t.Fatal(err)
		}
		for _, want := range []string{"input 0.", fmt.Sprintf("input %d.", mostRows-1), "1 to 2 days", "the first 14 of 17 inputs", "invented data", []string{"years", "% of the variance"}[i]} {
			if !bytes.Contains(svg, []byte(want)) {
				t.Errorf("%s does not say %q", p.Name, want)
			}
		}
		if bytes.Contains(svg, []byte(fmt.Sprintf("input %d.", mostRows))) || bytes.Contains(svg, []byte("NaN")) {
			t.Errorf("%s shows more than there is room for, or no number", p.Name)
		}
	}
}

// Drawing survives effects of nothing.
func TestDriversOfNothing(t *testing.T) {
	view := DriversView{Convert: unchanged, Names: []string{"x"}, Ranges: []string{""}, Drivers: make([]drivers.Driver, 1)}
	for _, p := range Drivers(&drivers.Answer{Rows: 2}, view) {
		svg, err := p.SVG()
		if err != nil || bytes.Contains(svg, []byte("NaN")) {
			t.Errorf("%s: no number, or %v", p.Name, err)
		}
	}
}
