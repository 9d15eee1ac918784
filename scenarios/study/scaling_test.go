package study_test

import (
	"context"
	"flag"
	"fmt"
	"math"
	"runtime"
	"syscall"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
	"loamcast/sim"
)

// The largest sizes take some ten minutes.
var largest = flag.Bool("scaling.largest", false, "scale up to 80 years, 400 vessels and 10,000 replications")

// sized is the demo without growth, of so many years, and in all that it has as many times
// as large as its vessels are.
func sized(b *testing.B, years, vessels int) *facilityfile.File {
	b.Helper()
	f, err := facilityfile.Parse("demo", examples.Data(examples.Demo))
	if err != nil {
		b.Fatal(err)
	}
	m := &f.Model
	times := float64(vessels) / float64(m.Vessels.Installed)
	m.Years, m.Feed.Growth, f.Planning.Growths = years, plant.Compound{}, nil
	m.Vessels.Installed = vessels
	m.Feed.Base *= times
	m.Holding.Capacity *= times
	m.Mixer.BatchTime = sim.Duration(math.Round(float64(m.Mixer.BatchTime) / times))
	m.Curing.Capacity *= times
	m.Screening.Settings.Capacity *= times
	m.Product.Capacity *= times
	for month := range m.Product.Demand {
		m.Product.Demand[month] *= times
	}
	for _, volume := range []*float64{&m.Chips.Capacity, &m.Chips.Reorder, &m.Chips.OrderUpTo, &m.Chips.Truckload} {
		*volume *= times
	}
	return f
}

// cost is what some runs took.
type cost struct {
	seconds float64 // of processor time
	events  float64
	heap    float64 // bytes in use at the most, as seen between replications
}

// costOf has replications of a file simulated once its tables are filled, or as filled as
// the first two hundred fill them.
func costOf(b *testing.B, f *facilityfile.File, replications int, simulates simulation) cost {
	b.Helper()
	s, err := study.New(f, 0)
	if err != nil {
		b.Fatal(err)
	}
	run := func(n int) (out cost) {
		began := processorTime(b)
		out.events = simulates(b, s, n, func(done, total int) {
			if done%max(1, total/20) == 0 {
				var m runtime.MemStats
				runtime.ReadMemStats(&m)
				out.heap = max(out.heap, float64(m.HeapInuse))
			}
		})
		out.seconds = (processorTime(b) - began).Seconds()
		return out
	}
	run(min(replications, 200))
	runtime.GC()
	return run(replications)
}

// costOfOne returns what one of some replications of a file costs: of a small plant one by
// itself is over too soon to be timed.
func costOfOne(b *testing.B, f *facilityfile.File, replications int) cost {
	c := costOf(b, f, replications, fewNumbers)
	c.seconds /= float64(replications)
	c.events /= float64(replications)
	return c
}

// simulation plays replications of a study and returns how many events they had, if that is
// told.
type simulation func(b *testing.B, s *study.Study, n int, progress func(done, total int)) (events float64)

// fewNumbers makes of each record a number, as planning answers make a few.
func fewNumbers(b *testing.B, s *study.Study, n int, progress func(done, total int)) (events float64) {
	all, err := study.Each(context.Background(), s, study.Runs(&study.Case{}, 0, n), func(r *study.Result) (float64, error) {
		return float64(r.Record.Events), nil
	}, progress)
	if err != nil {
		b.Fatal(err)
	}
	for _, e := range all {
		events += e
	}
	return events
}

// wholeAnswer makes the answer of `run`, of two runs each.
func wholeAnswer(b *testing.B, s *study.Study, n int, progress func(done, total int)) float64 {
	setup := answer.Setup{Progress: func(_ string, done, total int) { progress(done, total) }}
	if _, err := simulate.Ask(context.Background(), s, setup, simulate.Options{Replications: n}); err != nil {
		b.Fatal(err)
	}
	return 0
}

// processorTime returns what the process has used so far.
func processorTime(b *testing.B) time.Duration {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return time.Duration(u.Utime.Nano() + u.Stime.Nano())
}

// BenchmarkScaling reports by which power of years, vessels and replications the processor
// time rises, from the slope of the line through the logarithms of both, and what each
// size takes. Run it with -benchtime 1x -v.
func BenchmarkScaling(b *testing.B) {
	for _, axis := range []struct {
		name         string
		sizes, large []int
		cost         func(b *testing.B, size int) cost
	}{
		{"years", []int{5, 10, 20, 40}, []int{80}, func(b *testing.B, n int) cost { return costOf(b, sized(b, n, 8), 10, fewNumbers) }},
		{"vessels", []int{3, 10, 30, 100}, []int{400}, func(b *testing.B, n int) cost { return costOfOne(b, sized(b, 5, n), max(5, 600/n)) }},
		{"replications", []int{10, 100}, []int{1000, 10_000}, func(b *testing.B, n int) cost { return costOf(b, sized(b, 5, 8), n, fewNumbers) }},
		{"replications-of-run", []int{10, 100}, []int{1000, 4000}, func(b *testing.B, n int) cost { return costOf(b, sized(b, 5, 8), n, wholeAnswer) }},
	} {
		b.Run(axis.name, func(b *testing.B) {
			sizes := axis.sizes
			if *largest {
				sizes = append(sizes, axis.large...)
			}
			for b.Loop() {
				var x, time, events []float64
				for _, n := range sizes {
					c := axis.cost(b, n)
					b.Logf("%d %s: %.4f s, %.1f MB in use", n, axis.name, c.seconds, c.heap/1e6)
					if c.events > 0 {
						b.Logf("%.0f events", c.events)
					}
					x, time, events = append(x, math.Log(float64(n))), append(time, math.Log(c.seconds)), append(events, math.Log(c.events))
				}
				_, slope := stat.LinearRegression(x, time, nil, false)
				b.ReportMetric(slope, fmt.Sprintf("power-of-%s", axis.name))
				if !math.IsInf(events[0], -1) {
					_, slope = stat.LinearRegression(events, time, nil, false)
					b.ReportMetric(slope, "power-of-events")
				}
			}
		})
	}
}
