package stats

import "math/rand/v2"

// newSequence returns uniform random numbers, the same for the same seed.
func newSequence(seed uint64) func() float64 { return rand.New(rand.NewPCG(seed, 0)).Float64 }
