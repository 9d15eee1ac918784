package compare

import (
	"context"
	"testing"
)

// The cost of the procedures apart from the simulation, for five options in the
// hardest case, on normal numbers that cost next to nothing; runs/op is how many
// of them it takes.
func BenchmarkProcedures(b *testing.B) {
	const k, difference = 5, 0.6
	zone := Zone{Confidence: 0.95, Indifference: difference}
	means, sds := slippage(k, difference)
	for _, bm := range []struct {
		name string
		p    procedure
	}{
		{"Rinott", withZone(Rinott, zone)},
		{"KimNelson", withZone(KimNelson, zone)},
		{"Allocate", untilChance(0.95)},
	} {
		b.Run(bm.name, func(b *testing.B) {
			b.ReportAllocs()
			var seed uint64
			runs := 0
			for b.Loop() {
				seed++
				s, err := bm.p(context.Background(), normals(seed, means, sds, 0), Setup{First: 20, Most: 5000, Workers: 1})
				if err != nil {
					b.Fatal(err)
				}
				runs += s.Runs()
			}
			b.ReportMetric(float64(runs)/float64(b.N), "runs/op")
		})
	}
}
