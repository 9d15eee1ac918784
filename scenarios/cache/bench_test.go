package cache

import (
	"testing"

	"loamcast/facility/process"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/simulate"
	"loamcast/scenarios/study"
)

// BenchmarkDemo opens the tables that `run` of the demo keeps, and reads every course in
// them.
func BenchmarkDemo(b *testing.B) {
	dir := b.TempDir()
	kept := func() *Cache {
		f, err := facilityfile.Parse("demo", examples.Data(examples.Demo))
		if err != nil {
			b.Fatal(err)
		}
		s, err := study.New(f, 0)
		if err != nil {
			b.Fatal(err)
		}
		c, err := Open(dir)
		if err != nil {
			b.Fatal(err)
		}
		s.Keep(c.Keep)
		if tables := Size(dir).Tables; tables.Bytes == 0 {
			if _, err := simulate.Ask(b.Context(), s, answer.Setup{}, simulate.Options{}); err != nil {
				b.Fatal(err)
			}
			if err := c.Save(); err != nil {
				b.Fatal(err)
			}
		}
		return c
	}
	kept()
	tables := Size(dir).Tables
	b.SetBytes(tables.Bytes)
	courses := 0
	for b.Loop() {
		c := kept()
		for _, t := range c.tables {
			for _, p := range t.parts {
				for at := range p.index {
					t.recall(process.Point([]byte(at)), func([]byte) { courses++ })
				}
			}
		}
		if err := c.Save(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(courses)/float64(b.N), "courses/op")
}
