package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"
)

// Shows that temperatures looked at together are those looked at one by one, to the bit, at
// all hours at which points are kept and beyond the last, in a program with fixed ends, in
// one that waits, and on a pad, whose loads are not aligned; and that no reading is above
// the warmest (derived).
func TestTemperaturesTogether(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	waits := DefaultVesselModel()
	waits.Program[0].Until = &Ending{Criterion: PathogenReduction(), Longest: waits.Program[0].Hours + 48}
	pad := DefaultCuringModel()
	pad.Criteria, pad.Tipped = nil, &Handling{}
	for name, m := range map[string]*Model{"fixed": DefaultVesselModel(), "waits": waits, "pad": pad} {
		r := NewResponses(m, tableHours)
		for range 40 {
			month, start := time.Month(1+rng.IntN(12)), math.NaN()
			if m.Tipped != nil {
				start = 20 + 40*rng.Float64()
			}
			s, err := r.from(plantLoad(rng, month), month, start)
			if err != nil {
				t.Fatal(err)
			}
			g := s.stencil.grid
			points := g.points(tableHours)
			var at [together]float64
			first, n := rng.IntN(points+2), 1+rng.IntN(together)
			s.temperatures(first, at[:n])
			for i, together := range at[:n] {
				if one := s.Temperature(g.hour(first + i)); together != one {
					t.Fatalf("%s: %v °C after %v h beside others, %v alone", name, together, g.hour(first+i), one)
				}
			}
			hours := rng.Float64() * tableHours
			level := 20 + 40*rng.Float64()
			warmest, until := s.Warmest(hours, level)
			passed := 0.0
			for r := range s.Readings(hours) {
				if r.Temperature > warmest || r.Temperature >= level && passed >= until {
					t.Fatalf("%s: a reading of %v °C after %v h, the warmest is %v, and none comes to %v after %v h", name, r.Temperature, passed, warmest, level, until)
				}
				passed += r.Hours
			}
		}
	}
}
