package lab

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/document"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/page/dials"
)

// BenchmarkFirstLook turns dials of the demo by turns and measures how long it takes until
// something is shown, the file itself being answered: the median and the worst, in s. Run
// it with -benchtime 50x.
func BenchmarkFirstLook(b *testing.B) {
	l := New(answer.Setup{}, plain, 0)
	seen := errors.New("seen")
	ask := func(until error, settings ...dials.Setting) {
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
	ask(nil)
	turns := []func(i int) dials.Setting{
		func(i int) dials.Setting {
			return dials.Setting{Path: "growth_scenarios[2].growth.compound", Value: fmt.Sprintf("%.2f %%/year", 1.5+0.05*float64(i))}
		},
		func(i int) dials.Setting {
			return dials.Setting{Path: "vessels.turnaround", Value: fmt.Sprintf("%d h", 24+i)}
		},
		func(i int) dials.Setting {
			return dials.Setting{Path: "mix.chips_to_cake", Value: fmt.Sprintf("%.2f", 2.8+0.01*float64(i))}
		},
		func(i int) dials.Setting {
			return dials.Setting{Path: "chips.price", Value: fmt.Sprintf("%.2f USD/yd3", 12+0.1*float64(i))}
		},
		func(i int) dials.Setting {
			return dials.Setting{Path: "screen.recovery", Value: fmt.Sprintf("%.1f %%", 75+0.1*float64(i))}
		},
	}
	var took []float64
	for i := 0; b.Loop(); i++ {
		began := time.Now()
		ask(seen, turns[i%len(turns)](i))
		took = append(took, time.Since(began).Seconds())
	}
	slices.Sort(took)
	b.ReportMetric(took[len(took)/2], "median-s")
	b.ReportMetric(took[len(took)-1], "worst-s")
}
