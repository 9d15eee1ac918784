package recycle

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/sim"
)

// Shows that what a steady load needs of the stages of a plant is what the loads of a
// run with constant inputs need of them, to 1 % (derived; the run reads courses from its
// table), dried or not, in the vessel or on the pad.
func TestNeedsAreThoseOfARun(t *testing.T) {
	aired := structured(3.2)
	dried, inVessel := aired, aired
	dried.Drying = plant.ChosenDrying()
	dried.Drying.Moisture = 0.40
	inVessel.Drying.Vessel = plant.VesselDrying{Air: 60, Moisture: 0.38, Longest: 6 * sim.Day}
	for name, m := range map[string]plant.Model{"as it is": aired, "dried on the pad": dried, "dried in the vessel": inVessel} {
		t.Run(name, func(t *testing.T) {
			rec := ran(t, m)
			s, err := New(&m, time.January).Steady(t.Context(), AsRun(&m, time.January))
			if err != nil {
				t.Fatal(err)
			}
			want, got := plant.NeedsOf(rec.Months), s.Needs(&m)
			for _, c := range []struct {
				what      string
				got, want float64
			}{
				{"payload", got.Payload, want.Payload},
				{"volume", got.Volume, want.Volume},
				{"pad", got.Pad, want.Pad},
				{"screen", got.Screen, want.Screen},
				{"product", got.Product, want.Product},
				{"chips", got.Chips, want.Chips},
				{"drying on the pad", got.Drying, want.Drying},
				{"days of drying in the vessel", got.InVessel, want.InVessel},
			} {
				t.Logf("%s: %.5g by the steady load, %.5g by the run", c.what, c.got, c.want)
				if !(math.Abs(c.got-c.want) <= 0.01*c.want) {
					t.Errorf("%s: %.5g by the steady load, %.5g by the run", c.what, c.got, c.want)
				}
			}
		})
	}
}
