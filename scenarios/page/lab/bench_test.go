package lab

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"syscall"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/page/dials"
)

// BenchmarkFirstLook turns dials of the demo, which is answered, and measures for each kind
// of key how long it takes until something is shown: the median and the worst, in s, and the
// mean of processor time on all cores. Growth has its look by what was found before, a price
// its whole answer, and a key of the plant runs of its own. Run it with -benchtime 50x; what
// is said of it goes by processor time where others share the machine.
func BenchmarkFirstLook(b *testing.B) {
	l := New(answer.Setup{}, plain, 0)
	seen := errors.New("seen")
	ask := func(b *testing.B, until error, settings ...dials.Setting) {
		data, problems := dials.Apply(examples.Data(examples.Demo), settings)
		f, more := dials.Read("demo", data)
		if f == nil {
			b.Fatal(problems, more)
		}
		_, err := l.Ask(context.Background(), Asked{Tab: "a", File: f, Name: "when"}, Tell{Look: func(*document.Document) error { return until }})
		if err != nil && !errors.Is(err, seen) {
			b.Fatal(err)
		}
	}
	ask(b, nil)
	for _, dial := range []struct {
		name, path, value string
		from, step        float64
	}{
		{"growth", "growth_scenarios[2].growth.compound", "%.2f %%/year", 1.5, 0.05},
		{"price", "chips.price", "%.2f USD/yd3", 12, 0.1},
		{"plant/turnaround", "vessels.turnaround", "%.1f h", 24, 0.5},
		{"plant/chips", "mix.chips_to_cake", "%.3f", 2.8, 0.01},
		{"plant/recovery", "screen.recovery", "%.1f %%", 75, 0.1},
	} {
		b.Run(dial.name, func(b *testing.B) {
			var took []float64
			before := processor(b)
			for i := 0; b.Loop(); i++ {
				began := time.Now()
				ask(b, seen, dials.Setting{Path: dial.path, Value: fmt.Sprintf(dial.value, dial.from+dial.step*float64(i))})
				took = append(took, time.Since(began).Seconds())
			}
			b.ReportMetric((processor(b)-before)/float64(len(took)), "processor-s")
			slices.Sort(took)
			b.ReportMetric(took[len(took)/2], "median-s")
			b.ReportMetric(took[len(took)-1], "worst-s")
			b.ReportMetric(0, "ns/op") // of which the median says more
		})
	}
}

// processor is the processor time that the program has taken, s.
func processor(b *testing.B) float64 {
	b.Helper()
	var u syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &u); err != nil {
		b.Fatal(err)
	}
	return float64(u.Utime.Nano()+u.Stime.Nano()) / 1e9
}
