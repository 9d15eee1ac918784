package plant

import (
	"context"
	"runtime"
	"runtime/debug"
	"testing"
	"time"

	"loamcast/sim/random"
	"loamcast/sim/replicate"
)

// fingerprints runs n replications of a fresh plant and returns their traces.
func fingerprints(t testing.TB, m Model, n, workers int) []uint64 {
	t.Helper()
	p, err := New(m)
	if err != nil {
		t.Fatal(err)
	}
	out, err := replicate.Run(context.Background(), n, workers, func(ctx context.Context, rep int) (uint64, error) {
		rec, err := p.Run(ctx, random.Key{Seed: 3, Replication: rep})
		if err != nil {
			return 0, err
		}
		return rec.Fingerprint, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// The trace of events depends on model and key alone: not on the number of
// workers, on the order in which shared tables are filled, or on the garbage
// collector.
func TestTraceDependsOnModelAndKeyAlone(t *testing.T) {
	m := noisy(t)
	m.Years = 1
	n := 8
	if testing.Short() {
		n = 3
	}
	want := fingerprints(t, m, n, 1)
	if want[0] == want[1] || want[0] == 0 {
		t.Fatalf("fingerprints %x do not tell replications apart", want[:2])
	}
	same := func(how string, got []uint64) {
		t.Helper()
		for i := range want {
			if got[i] != want[i] {
				t.Errorf("%s: replication %d has trace %x, with one worker %x", how, i, got[i], want[i])
			}
		}
	}
	if testing.Short() { // takes long under the race detector
		same("8 workers", fingerprints(t, m, n, 8))
		return
	}
	same("2 workers", fingerprints(t, m, n, 2))
	same("8 workers", fingerprints(t, m, n, 8))
	old := debug.SetGCPercent(5)
	defer debug.SetGCPercent(old)
	same("GOGC=5", fingerprints(t, m, n, 8))
	debug.SetGCPercent(-1)
	same("GOGC=off", fingerprints(t, m, n, 8))
}

// Two thousand replications of a short horizon leave goroutines and heap where
// they were.
func TestReplicationsLeaveNothingBehind(t *testing.T) {
	m := model()
	m.Years, m.WarmUp = 1, 0
	p, err := New(m)
	if err != nil {
		t.Fatal(err)
	}
	batch := func(from, n int) {
		t.Helper()
		_, err := replicate.Run(context.Background(), n, 0, func(ctx context.Context, rep int) (struct{}, error) {
			_, err := p.Run(ctx, random.Key{Seed: 1, Replication: from + rep})
			return struct{}{}, err
		}, nil)
		if err != nil {
			t.Fatal(err)
		}
	}
	batch(0, 20) // fills the tables of courses
	heap, goroutines := live()
	batch(20, 2000)
	heapAfter, _ := live()
	// A worker may still be on its way out when the last result is in.
	for deadline := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > goroutines; time.Sleep(time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("%d goroutines before, %d after", goroutines, runtime.NumGoroutine())
		}
	}
	const slackBytes = 2 << 20
	if heapAfter > heap+slackBytes {
		t.Errorf("%d kB of heap before, %d kB after", heap>>10, heapAfter>>10)
	}
}

func live() (heap uint64, goroutines int) {
	for range 3 {
		runtime.GC()
		time.Sleep(time.Millisecond)
	}
	var s runtime.MemStats
	runtime.ReadMemStats(&s)
	return s.HeapAlloc, runtime.NumGoroutine()
}

// Shows that a replication makes fewer objects than it has events, once the tables of
// courses are filled: events, loads and batches use again what those before them had.
func TestFewObjects(t *testing.T) {
	m := noisy(t)
	m.Years, m.WarmUp = 3, 0
	p, err := New(m)
	if err != nil {
		t.Fatal(err)
	}
	var events uint64
	objects := testing.AllocsPerRun(1, func() { // after a first run, which fills the tables
		rec, err := p.Run(context.Background(), random.Key{Seed: 1})
		if err != nil {
			t.Fatal(err)
		}
		events = rec.Events
	})
	if !(objects < float64(events)) {
		t.Errorf("%.0f objects for %d events", objects, events)
	}
	t.Logf("%.0f objects for %d events", objects, events)
}
