package recycle

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/sim"
)

// On constant inputs a run and the steady loop dry alike: in both a lot leaves for the
// screen at the moisture that the file asks for, or after the longest time, and the
// days that this takes on the pad and in the vessel are the same but for what the table
// of courses and the steps of its temperatures (2 K, the lower one) leave out: half a
// day and a tenth (derived). Where that moment would be reached by some lots of a run
// and not by others, which dry by a tenth of a point a day and give each other wet
// chips, the two may differ by more; such cases are not compared.
func TestRunDriesAsSteadyLoop(t *testing.T) {
	const enough = 0.48
	for _, c := range []struct {
		name string
		d    plant.Drying
		dry  bool // within the longest time
	}{
		{"dried on the pad", plant.Drying{Gate: plant.DryFirst, Moisture: enough, Longest: 60 * sim.Day, Air: process.DryingAir}, true},
		{"dried on the pad, not long enough", plant.Drying{Gate: plant.DryFirst, Moisture: 0.40, Longest: 5 * sim.Day, Air: process.DryingAir}, false},
		{"held", plant.Drying{Gate: plant.HoldWet, Moisture: 0.40, Longest: 90 * sim.Day}, false},
		{"dried in the vessel", plant.Drying{Vessel: plant.VesselDrying{Air: process.DryingAir, Moisture: 0.45, Longest: 8 * sim.Day}}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := constant()
			m.Active.Criteria = m.Active.Criteria[:1]
			m.Drying = c.d
			for _, course := range []*process.Model{m.Active, m.Pile} {
				course.Site.Temperature = twelve(22)
			}
			rec := ran(t, m)
			sum := func(of func(*plant.Month) float64) float64 { return plant.Sum(rec.Months, of) }
			steady, err := New(&m, time.January).Steady(t.Context(), AsRun(&m, time.January))
			if err != nil {
				t.Fatal(err)
			}
			j, end := steady.Journey, steady.Journey.End()
			near := func(what string, got, want, tolerance float64) {
				t.Helper()
				t.Logf("%s: %.5g in the run, %.5g in the loop", what, got, want)
				if !(math.Abs(got-want) <= tolerance) {
					t.Errorf("%s: %.5g in the run, %.5g in the loop", what, got, want)
				}
			}
			lots := sum(func(m *plant.Month) float64 { return m.Screen.Lots })
			near("moisture at the screen", sum(func(m *plant.Month) float64 { return m.Screen.Moisture })/lots, end.Moisture(), 0.002)
			onPad := (sum(func(m *plant.Month) float64 { return m.Curing.Days })/lots - m.Curing.Time.Days())
			near("days on the pad beyond curing", onPad, j.PadDrying/24, 0.5+0.1*j.PadDrying/24)
			released := sum(func(m *plant.Month) float64 { return m.Release.Loads })
			near("days dried in the vessel", sum(func(m *plant.Month) float64 { return m.Drying.Days })/released, j.VesselDrying/24, 0.5+0.1*j.VesselDrying/24)
			if c.d.Gate != plant.ScreenAnyway && c.dry && !(math.Abs(end.Moisture()-enough) < 1e-8) {
				t.Errorf("the loop screens at %.9g, %g is asked for", end.Moisture(), enough)
			}
			if j.PadDrying+j.VesselDrying == 0 {
				t.Error("nothing is dried")
			}
		})
	}
}
