package sim

import (
	"context"
	"errors"
	"fmt"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"loamcast/sim/random"
	"loamcast/sim/replicate"
)

// smallPlant is a model with something of everything: random arrivals, a server
// with shifts and breakdowns, cancelled events.
type smallPlant struct {
	k       *Kernel
	server  *Server
	ballast []byte // to make a leaked model show
}

func newSmallPlant(rep int) *smallPlant {
	k := NewKernel(testStart, rep)
	k.RecordFingerprint()
	p := &smallPlant{k: k, ballast: make([]byte, 100_000)}
	p.server = NewServer(k, ServerConfig{Name: "mixer", Capacity: 2, Calendar: shifts(), Shift: PauseJob})
	key := random.Key{Seed: 7, Replication: rep}
	arrivals, services, failures := key.Stream("arrival"), key.Stream("service"), key.Stream("failure")

	var arrive, fail func()
	arrive = func() {
		service := DurationOf(random.Exponential{Expected: 900}.Draw(services))
		p.server.Submit(Job{Service: service, Done: func() { k.After(Minute, "cleaned", func() {}) }})
		timeout := k.After(Hour, "timeout", func() {})
		k.After(Minute, "in time", timeout.Cancel)
		k.After(DurationOf(random.Exponential{Expected: 3600}.Draw(arrivals)), "arrival", arrive)
	}
	fail = func() {
		p.server.FailOne()
		k.After(2*Hour, "repair", func() { p.server.RepairOne() })
		k.After(DurationOf(random.Exponential{Expected: 50_000}.Draw(failures)), "failure", fail)
	}
	arrive()
	fail()
	k.At(maxTime, "far away", func() { p.ballast[0]++ }) // still pending at the end
	return p
}

// run simulates the plant for some days and closes it.
func (p *smallPlant) run(ctx context.Context, days int) (uint64, error) {
	defer p.k.Close()
	err := p.k.Run(ctx, Time(days)*Time(Day))
	return p.k.Fingerprint(), err
}

func fingerprints(t *testing.T, n, workers int) []uint64 {
	t.Helper()
	got, err := replicate.Run(context.Background(), n, workers, func(ctx context.Context, rep int) (uint64, error) {
		return newSmallPlant(rep).run(ctx, 20)
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// Shows that the same events happen in the same order whatever the number of
// workers and however often the garbage collector runs, and others in another
// replication.
func TestSameTraceForAnyWorkersAndCollector(t *testing.T) {
	const n = 24
	want := fingerprints(t, n, 1)
	for i := range n {
		if slices.Contains(want[:i], want[i]) {
			t.Fatalf("replication %d repeats an earlier one", i)
		}
	}
	for _, gc := range []int{100, 5, -1} {
		old := debug.SetGCPercent(gc)
		for _, workers := range []int{1, 2, 8} {
			if got := fingerprints(t, n, workers); !slices.Equal(got, want) {
				t.Errorf("GOGC %d and %d workers: other traces", gc, workers)
			}
		}
		debug.SetGCPercent(old)
	}
}

// Shows that 2,000 replications leave nothing behind: each holds a pending event
// with 100 kB, so that a leak of one in a hundred would show.
func TestReplicationsLeaveNothing(t *testing.T) {
	const n = 2000
	heap := func() uint64 {
		runtime.GC()
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		return m.HeapAlloc
	}
	once := func() {
		_, err := replicate.Run(context.Background(), n, 2, func(ctx context.Context, rep int) (uint64, error) {
			p := newSmallPlant(rep)
			if rep%10 == 0 { // some fail half-way
				p.k.At(500, "failure", func() { panic("planted") })
			}
			print, err := p.run(ctx, 1)
			if rep%10 == 0 != (err != nil) {
				return 0, fmt.Errorf("replication %d: error %v", rep, err)
			}
			return print, nil
		}, nil)
		if err != nil {
			t.Fatal(err)
		}
	}
	goroutines, before := runtime.NumGoroutine(), heap()
	once()
	after := heap()
	// A worker may still be on its way out when the last result is in.
	for deadline := time.Now().Add(10 * time.Second); runtime.NumGoroutine() > goroutines; time.Sleep(time.Millisecond) {
		if time.Now().After(deadline) {
			t.Fatalf("%d goroutines, were %d", runtime.NumGoroutine(), goroutines)
		}
	}
	if after > before+1_000_000 {
		t.Errorf("heap grew from %d to %d bytes", before, after)
	}
}

// Shows that Close alone lets go of what a kernel's pending events refer to,
// even while the kernel itself is held, and of failed runs too.
func TestCloseReleases(t *testing.T) {
	collected := make(chan string, 2)
	hold := func(k *Kernel, name string) {
		big := make([]byte, 1_000_000)
		runtime.AddCleanup(&big[0], func(name string) { collected <- name }, name)
		k.At(1000, name, func() { big[0]++ })
	}
	closed, failed := NewKernel(testStart, 0), NewKernel(testStart, 0)
	hold(closed, "closed")
	hold(failed, "failed")
	failed.At(1, "failure", func() { panic("planted") })
	mustRun(t, closed, 10)
	closed.Close()
	if failed.Run(context.Background(), 10) == nil {
		t.Fatal("no error")
	}
	runtime.GC()
	got := []string{<-collected, <-collected} // the test's own time limit is the failure
	slices.Sort(got)
	if !slices.Equal(got, []string{"closed", "failed"}) {
		t.Errorf("collected %q", got)
	}
	runtime.KeepAlive(closed)
	runtime.KeepAlive(failed)
}

// Shows that a panic planted in an event of one replication comes back from the
// whole study as an error with replication, date and event.
func TestPanicNamesItsPlace(t *testing.T) {
	for _, workers := range []int{1, 2, 8} {
		_, err := replicate.Run(context.Background(), 40, workers, func(ctx context.Context, rep int) (uint64, error) {
			p := newSmallPlant(rep)
			if rep >= 13 {
				at := Time(Day)*3 + Time(8*Hour+30*Minute)
				p.k.At(at, "weigh load", func() { var none *smallPlant; none.server.Release() })
			}
			return p.run(ctx, 5)
		}, nil)
		var re *RunError
		if !errors.As(err, &re) || re.Replication != 13 || re.Date != "2031-04-20 08:30" || re.Event != "weigh load" {
			t.Fatalf("%d workers: %v", workers, err)
		}
		var pe *PanicError
		var rt runtime.Error
		if !errors.As(err, &pe) || !strings.Contains(pe.Stack, "reproducible_test.go") || !errors.As(err, &rt) {
			t.Errorf("%d workers: the panic's stack or cause is lost", workers)
		}
	}
}
