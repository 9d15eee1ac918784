package stats

import (
	"math"
	"math/rand/v2"
)

// newSequence returns uniform random numbers, the same for the same seed.
func newSequence(seed uint64) func() float64 { return rand.New(rand.NewPCG(seed, 0)).Float64 }

// normal returns a standard normal number made of two uniform ones (Box and
// Muller).
func normal(uniform func() float64) float64 {
	return math.Sqrt(-2*math.Log(1-uniform())) * math.Cos(2*math.Pi*uniform())
}
