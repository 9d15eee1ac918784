package cache

import (
	"reflect"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/digest"
	"loamcast/sim/random"
)

// BenchmarkRun writes what a run of the demo over its whole horizon leaves, and reads it
// again; and identifies the run.
func BenchmarkRun(b *testing.B) {
	f, err := facilityfile.Parse("demo", examples.Data(examples.Demo))
	if err != nil {
		b.Fatal(err)
	}
	p, err := plant.New(f.Model)
	if err != nil {
		b.Fatal(err)
	}
	rec, err := p.Run(b.Context(), random.Key{Seed: f.Seed})
	if err != nil {
		b.Fatal(err)
	}
	left := plant.Played{Record: rec}
	space := new(room)
	write := func() {
		space.words = appendWords(space.words[:0], reflect.ValueOf(&left).Elem())
		space.bytes = pack(space.bytes[:0], space.words)
	}
	b.Run("write", func(b *testing.B) {
		for b.Loop() {
			write()
		}
		b.ReportMetric(float64(len(space.bytes)), "B/run")
		b.ReportMetric(float64(len(space.words)), "words/run")
	})
	b.Run("read", func(b *testing.B) {
		write()
		for b.Loop() {
			var back plant.Played
			space.words, _ = unpack(space.words[:0], space.bytes)
			in := reader{words: space.words}
			in.value(reflect.ValueOf(&back).Elem())
		}
	})
	b.Run("identify", func(b *testing.B) {
		n := &asked{}
		p.KeepRuns(n)
		for b.Loop() {
			if _, err := p.Run(b.Context(), random.Key{Seed: f.Seed}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// asked knows every run.
type asked struct{}

func (*asked) Recall(digest.Sum) (plant.Played, bool) { return plant.Played{}, true }
func (*asked) Keep(digest.Sum, plant.Played)          {}
