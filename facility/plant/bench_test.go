package plant

import (
	"context"
	"testing"

	"loamcast/sim/random"
)

// BenchmarkYear reports the time, allocations and events per simulated year of
// a plant of the demo's size at batch detail, tables of courses already filled.
func BenchmarkYear(b *testing.B) {
	m := noisy(b)
	m.Years, m.WarmUp = 20, 0
	benchmarkYears(b, plantOf(b, m))
}

// BenchmarkReplayedYear is that of the plant without heat that is replayed in a
// general-purpose library, as it is run there: most of its time goes to events.
func BenchmarkReplayedYear(b *testing.B) {
	benchmarkYears(b, plantOf(b, replayed()).AirByYear().Unmarked())
}

func benchmarkYears(b *testing.B, p *Plant) {
	years := p.Years + p.WarmUp
	run := func(rep int) *Record {
		rec, err := p.Run(context.Background(), random.Key{Seed: 1, Replication: rep})
		if err != nil {
			b.Fatal(err)
		}
		return rec
	}
	const distinct = 20
	for rep := range distinct {
		run(rep)
	}
	b.ReportAllocs()
	events := uint64(0)
	for i := 0; b.Loop(); i++ {
		events += run(i % distinct).Events
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*years), "µs/year")
	b.ReportMetric(float64(events)/float64(b.N*years), "events/year")
}
