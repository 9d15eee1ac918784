package plant

import (
	"context"
	"math"
	"testing"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/random"
)

// A trace tells of every movement in order of time: its sums along each path
// are the ledger's, and asking for it changes nothing.
func TestTraceIsTheLedger(t *testing.T) {
	m := noisy(t)
	m.Years, m.WarmUp = 1, 0
	p := plantOf(t, m)
	key := random.Key{Seed: 4}
	sums := map[Path]material.Components{}
	var last sim.Time
	traced, err := p.RunTraced(context.Background(), key, func(mv Movement) {
		if mv.At < last {
			t.Fatalf("second %d after %d", mv.At, last)
		}
		last = mv.At
		sums[mv.Path] = sums[mv.Path].Plus(mv.Amount)
	})
	if err != nil {
		t.Fatal(err)
	}
	plain, err := p.Run(context.Background(), key)
	if err != nil {
		t.Fatal(err)
	}
	if traced.Fingerprint != plain.Fingerprint || traced.Events != plain.Events {
		t.Error("tracing changed the run")
	}
	flows := plain.Years[0].Balance.Flows
	for i, path := range plain.Paths {
		want, got := flows[i].Each(), sums[path].Each()
		for c := range want {
			if math.Abs(got[c]-want[c]) > 1e-9*math.Max(1, want[c]) {
				t.Errorf("%s, %s: %g kg traced, %g booked", path.Name, material.ComponentNames[c], got[c], want[c])
			}
		}
	}
}
