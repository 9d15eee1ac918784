package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// Shows that where air holds all standard loads of a stencil at a setpoint the temperature
// of a load between them is what interpolation has it, to rounding, and that this is so
// most of the time that a load is in a vessel whose program waits (derived).
func TestSteadyIsWhatIsInterpolated(t *testing.T) {
	rng := rand.New(rand.NewPCG(14, 3))
	waits := DefaultVesselModel()
	waits.Program[0].Until = &Ending{Criterion: PathogenReduction(), Longest: waits.Program[0].Hours + 48}
	for name, m := range map[string]*Model{"waits": waits, "everything": everything()} {
		r := NewResponses(m, tableHours)
		steady, all := 0, 0
		for range 60 {
			month := time.Month(1 + rng.IntN(12))
			s, err := r.from(plantLoad(rng, month), month, math.NaN())
			if err != nil {
				t.Fatal(err)
			}
			plain, stencil := s, *s.stencil
			stencil.steady = nil
			plain.stencil = &stencil
			for h := 0.0; h < tableHours; h += 1 + rng.Float64() {
				all++
				if _, ok := s.steadyAt(h); ok {
					steady++
				}
				if got, want := s.Temperature(h), plain.Temperature(h); math.Abs(got-want) > 1e-7 {
					t.Fatalf("%s: %v °C after %v h, interpolated %v", name, got, h, want)
				}
			}
		}
		if share := float64(steady) / float64(all); share < 0.5 {
			t.Errorf("%s: steady for %.0f %% of the time only", name, 100*share)
		}
	}
}
