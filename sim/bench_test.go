package sim

import (
	"context"
	"math"
	"runtime"
	"testing"

	"github.com/fschuetz04/simgo"

	"loamcast/sim/random"
)

// The engine benchmarks all do the same: tickers chains of events, each of which
// schedules its successor after 1 to 64 seconds. They differ in what keeps the
// order. Each op is one event.
const tickers = 16

// delays is a fixed sequence of 1 to 64 that every benchmark reads in turn.
var delays = func() (d [1024]int64) {
	r := random.Key{Seed: 1}.Stream("delay")
	for i := range d {
		d[i] = 1 + r.Int64N(64)
	}
	return d
}()

func BenchmarkKernelEvent(b *testing.B)            { benchmarkKernel(b, false) }
func BenchmarkKernelEventFingerprint(b *testing.B) { benchmarkKernel(b, true) }

func benchmarkKernel(b *testing.B, fingerprint bool) {
	k := NewKernel(testStart, 0)
	defer k.Close()
	if fingerprint {
		k.RecordFingerprint()
	}
	n := 0
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	var tick func()
	tick = func() {
		n++
		if n < b.N {
			k.After(Duration(delays[n&1023]), "a name of some length", tick)
		}
	}
	for range tickers {
		k.After(1, "a name of some length", tick)
	}
	b.ReportAllocs()
	b.ResetTimer()
	if err := k.Run(ctx, maxTime); err != nil {
		b.Fatal(err)
	}
}

// A bare handler of the engine, with the finalizer of each event cleared.
func BenchmarkEngineHandler(b *testing.B) {
	engine := simgo.NewSimulation()
	n := 0
	var tick simgo.Handler
	schedule := func(d int64) {
		ev := engine.Timeout(float64(d))
		runtime.SetFinalizer(ev, nil)
		ev.AddHandler(tick)
	}
	tick = func(*simgo.Event) {
		n++
		if n < b.N {
			schedule(delays[n&1023])
		}
	}
	for range tickers {
		schedule(1)
	}
	b.ReportAllocs()
	b.ResetTimer()
	engine.RunUntil(math.Inf(1))
}

// A process of the engine, which is a goroutine. Only here: the kernel uses none.
func BenchmarkEngineProcess(b *testing.B) {
	engine := simgo.NewSimulation()
	n := 0
	for range tickers {
		engine.Process(func(p simgo.Process) {
			for n < b.N {
				n++
				p.Wait(p.Timeout(float64(delays[n&1023])))
			}
		})
	}
	b.ReportAllocs()
	b.ResetTimer()
	engine.RunUntil(math.Inf(1))
}

// A binary heap of plain values: what the same order could cost at least.
func BenchmarkPlainHeap(b *testing.B) {
	var h plainHeap
	n := 0
	var now int64
	var tick func()
	tick = func() {
		n++
		if n < b.N {
			h.push(plainEvent{now + delays[n&1023], int64(n), tick})
		}
	}
	for i := range tickers {
		h.push(plainEvent{1, int64(i - tickers), tick})
	}
	b.ReportAllocs()
	b.ResetTimer()
	for len(h) > 0 {
		e := h.pop()
		now = e.at
		e.fn()
	}
}

type plainEvent struct {
	at, order int64
	fn        func()
}

type plainHeap []plainEvent

func (h plainHeap) less(i, j int) bool {
	return h[i].at < h[j].at || h[i].at == h[j].at && h[i].order < h[j].order
}

func (h *plainHeap) push(e plainEvent) {
	*h = append(*h, e)
	q := *h
	for i := len(q) - 1; i > 0 && q.less(i, (i-1)/2); i = (i - 1) / 2 {
		q[i], q[(i-1)/2] = q[(i-1)/2], q[i]
	}
}

func (h *plainHeap) pop() plainEvent {
	q := *h
	first, last := q[0], len(q)-1
	q[0] = q[last]
	q = q[:last]
	*h = q
	for i := 0; ; {
		child := 2*i + 1
		if child+1 < last && q.less(child+1, child) {
			child++
		}
		if child >= last || !q.less(child, i) {
			return first
		}
		q[i], q[child] = q[child], q[i]
		i = child
	}
}

// A customer of a server: one arrival, one job.
func BenchmarkServerJob(b *testing.B) {
	k := NewKernel(testStart, 0)
	defer k.Close()
	s := NewServer(k, ServerConfig{Name: "server", Capacity: 2})
	n := 0
	var arrive func()
	arrive = func() {
		n++
		s.Submit(Job{Service: Duration(delays[n&1023])})
		if n < b.N {
			k.After(Duration(delays[(n+512)&1023]), "arrival", arrive)
		}
	}
	k.After(1, "arrival", arrive)
	b.ReportAllocs()
	b.ResetTimer()
	if err := k.Run(context.Background(), maxTime); err != nil {
		b.Fatal(err)
	}
}
