package compare

import (
	"context"
	"testing"
)

// The cost of the choice apart from the simulation, for five options in the
// hardest case, on normal numbers that cost next to nothing; runs/op is how many
// of them it takes.
func BenchmarkKimNelson(b *testing.B) {
	const k, difference = 5, 0.6
	zone := Zone{Confidence: 0.95, Indifference: difference}
	means, sds := slippage(k, difference)
	b.ReportAllocs()
	var seed uint64
	runs := 0
	for b.Loop() {
		seed++
		s, err := KimNelson(context.Background(), normals(seed, means, sds, 0), Setup{First: 20, Most: 5000, Workers: 1}, zone)
		if err != nil {
			b.Fatal(err)
		}
		runs += runsOf(s)
	}
	b.ReportMetric(float64(runs)/float64(b.N), "runs/op")
}
