package facilityfile

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/process"
)

// Handling and turning arrive; left out, handling loses what it does by default and lots
// lie still.
func TestHandlingArrives(t *testing.T) {
	const at = "  longest_time: 30 day\n"
	if m := parse(t).Model.Pile; m.Tipped == nil || *m.Tipped != process.DefaultHandling() || len(m.Turning.At) > 0 {
		t.Errorf("left out: %+v, %+v", m.Tipped, m.Turning)
	}
	m := parse(t, at, at+"  handling_loss: 30 %\n  handling_drop: 9 °F\n  turning: {after: [7 day, 240 h], loss: 50 %, drop: 2 K}\n").Model.Pile
	if h := m.Tipped; h == nil || h.Share != 0.3 || math.Abs(h.Drop-5) > 1e-9 {
		t.Errorf("handling %+v", h)
	}
	if want := (process.Turning{At: []float64{168, 240}, Loses: process.Handling{Share: 0.5, Drop: 2}}); !reflect.DeepEqual(m.Turning, want) {
		t.Errorf("turning %+v, want %+v", m.Turning, want)
	}
	m = parse(t, at, at+"  turning: {drop: 2 K}\n").Model.Pile
	if want := process.DefaultTurning(); !reflect.DeepEqual(m.Turning.At, want.At) || m.Turning.Loses != (process.Handling{Share: want.Loses.Share, Drop: 2}) {
		t.Errorf("turning %+v, want that of %+v", m.Turning, want)
	}
	m = parse(t, at, at+"  turning: {above: 65 °C}\n").Model.Pile
	if want := (process.Turning{Above: 65, Apart: process.DefaultApart, Loses: process.DefaultHandling()}); !reflect.DeepEqual(m.Turning, want) {
		t.Errorf("turned when hot %+v, want %+v", m.Turning, want)
	}
	m = parse(t, at, at+"  turning: {above: 149 °F, apart: 36 h, after: [14 day]}\n").Model.Pile
	if u := m.Turning; math.Abs(u.Above-65) > 1e-9 || u.Apart != 36 || !reflect.DeepEqual(u.At, []float64{336}) {
		t.Errorf("turned when hot and by the clock %+v", u)
	}
	m = parse(t, at, at+"  handling_drop: 5 °C\n").Model.Pile
	if h := m.Tipped; h == nil || *h != (process.Handling{Share: process.DefaultHandling().Share, Drop: 5}) {
		t.Errorf("drop alone: %+v", h)
	}
}

// Turning that makes no sense is refused or warned of.
func TestTurningThatMakesNoSense(t *testing.T) {
	const at = "  longest_time: 30 day\n"
	for _, c := range []struct{ with, says string }{
		{"  turning: {after: [14 day, 7 day]}\n", "must rise"},
		{"  turning: {after: [14]}\n", "unit"},
		{"  turning: {apart: 3 day}\n", "add above"},
		{"  turning: {above: 65}\n", "unit"},
	} {
		_, err := Parse("small.yaml", []byte(strings.Replace(readSmall(t), at, at+c.with, 1)))
		if err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.with, err)
		}
	}
	if w := parse(t, at, at+"  turning: {after: [7 day, 30 day]}\n").Warnings; len(w) != 1 {
		t.Errorf("turned after the longest time: warnings %v", w)
	}
}
