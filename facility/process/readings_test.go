package process

import (
	"math/rand/v2"
	"testing"
	"time"
)

// Shows that temperatures looked at together are those looked at one by one, to the bit,
// at any hour, in a program with fixed ends and in one that waits; and that no reading is above the
// warmest (derived).
func TestTemperaturesTogether(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	waits := DefaultVesselModel()
	waits.Program[0].Until = &Ending{Criterion: PathogenReduction(), Longest: waits.Program[0].Hours + 48}
	for name, m := range map[string]*Model{"fixed": DefaultVesselModel(), "waits": waits} {
		r := NewResponses(m, tableHours)
		for range 40 {
			month := time.Month(1 + rng.IntN(12))
			s, err := r.Of(plantLoad(rng, month), month)
			if err != nil {
				t.Fatal(err)
			}
			hours := make([]float64, 1+rng.IntN(together))
			for i := range hours {
				hours[i] = rng.Float64() * 1.1 * tableHours
			}
			var at [together]float64
			s.temperatures(hours, &at)
			warmest := s.Warmest(hours[0])
			for r := range s.Readings(hours[0]) {
				if r.Temperature > warmest {
					t.Fatalf("%s: a reading of %v °C, the warmest is %v", name, r.Temperature, warmest)
				}
			}
			for i, h := range hours {
				if one := s.Temperature(h); at[i] != one {
					t.Fatalf("%s: %v °C after %v h beside others, %v alone", name, at[i], h, one)
				}
			}
		}
	}
}
