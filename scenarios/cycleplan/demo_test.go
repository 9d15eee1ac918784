package cycleplan

import (
	"testing"
	"time"

	"loamcast/scenarios/examples"
)

// A load at the demo's recipe, of 20 short tons or as much as fits, behaves in every
// month as practice has it (checks, common practice, no source): past 55 °C within 2 to
// 5 days (to the tenth of a day), pathogen reduction within 8 and vector attraction
// reduction within 18.5, 10 to 20 % of the dry solids gone, and dry enough for
// the screen in the summer half of the year; wetter than 30 %, below which next to
// nothing lives.
func TestDemoLoadAgainstPractice(t *testing.T) {
	f := file(t, examples.Demo)
	months := make([]time.Month, 12)
	for i := range months {
		months[i] = time.Month(i + 1)
	}
	a, err := ask(t, f, Options{Months: months})
	if err != nil {
		t.Fatal(err)
	}
	const day = 24
	for i := range a.Loads {
		l := &a.Loads[i]
		loss := (l.Vessel.DryLoss + l.Curing.DryLoss) / l.Dry
		t.Logf("%v: 55 °C after %.2f d, criteria after %.2f and %.2f d, dry loss %.1f %%, moisture %.1f to %.1f %%",
			l.Month, l.Passes.Hours/day, l.Criteria[0].Met.Hours/day, l.Criteria[1].Met.Hours/day, 100*loss, 100*l.Moisture, 100*l.MoistureOut)
		within := func(what string, v, low, high float64) {
			t.Helper()
			if !(v >= low && v <= high) {
				t.Errorf("%v: %s %.4g, want %g to %g", l.Month, what, v, low, high)
			}
		}
		if !l.Complies || !l.Passes.OK {
			t.Errorf("%v: complies %v, passes 55 °C %v", l.Month, l.Complies, l.Passes.OK)
		}
		within("days to 55 °C", l.Passes.Hours/day, 1.95, 5)
		within("days to pathogen reduction", l.Criteria[0].Met.Hours/day, 4.6, 8)
		within("days to vector attraction reduction", l.Criteria[1].Met.Hours/day, 14, 18.5)
		within("dry loss", loss, 0.10, 0.20)
		if l.Month >= time.April && l.Month <= time.September {
			within("moisture out", l.MoistureOut, 0.30, 0.50)
		}
		full := f.Model.Vessels
		if l.Wet < full.Payload-1 && l.Volume < full.Volume*(1-1e-6) || l.Wet > full.Payload+1 {
			t.Errorf("%v: %.0f kg and %.2f m3 are no full load", l.Month, l.Wet, l.Volume)
		}
	}
}

// The same plant at −10 °C is slower and leaves its loads wetter than in July,
// but works.
func TestDemoLoadInHardWinter(t *testing.T) {
	f := file(t, examples.Demo)
	_, summer := follow1(t, f, time.July, 0)
	f.Model.Active.Site.Temperature[time.January-1] = -10
	f.Model.Pile.Site.Temperature[time.January-1] = -10
	_, winter := follow1(t, f, time.January, 0)
	if !winter.Complies || winter.Passes.Hours <= summer.Passes.Hours || winter.MoistureOut <= summer.MoistureOut {
		t.Errorf("winter: complies %v, 55 °C after %.0f h (summer %.0f), out at %.3f (%.3f)",
			winter.Complies, winter.Passes.Hours, summer.Passes.Hours, winter.MoistureOut, summer.MoistureOut)
	}
}
