package simulate_test

import (
	"context"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
)

// BenchmarkDemoReplication is one replication of the demo, 20 years and the
// warm-up at batch detail, once the tables of courses are filled.
func BenchmarkDemoReplication(b *testing.B) {
	f, err := facilityfile.Parse(examples.Demo, examples.Data(examples.Demo))
	if err != nil {
		b.Fatal(err)
	}
	p, err := plant.New(f.Model)
	if err != nil {
		b.Fatal(err)
	}
	run := func(rep int) uint64 {
		rec, err := p.Run(context.Background(), random.Key{Seed: f.Seed, Replication: rep})
		if err != nil {
			b.Fatal(err)
		}
		return rec.Events
	}
	const distinct = 20
	for rep := range distinct {
		run(rep)
	}
	b.ReportAllocs()
	events := uint64(0)
	for i := 0; b.Loop(); i++ {
		events += run(i % distinct)
	}
	b.ReportMetric(float64(events)/b.Elapsed().Seconds(), "events/s")
}
