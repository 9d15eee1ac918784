package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// BenchmarkCourse integrates 20 days with a sample every half hour.
func BenchmarkCourse(b *testing.B) {
	m, p := DefaultVesselModel(), standardLoad()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := m.Course(p, time.July, tableHours); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkStandardLoad integrates 20 days for the table.
func BenchmarkStandardLoad(b *testing.B) {
	m, p := DefaultVesselModel(), standardLoad()
	b.ReportAllocs()
	for b.Loop() {
		m.start(p, time.July, math.NaN(), tableSteps).reduce(tableHours, even(tablePace))
	}
}

// BenchmarkResponse asks a warm table for a load and advances it once.
func BenchmarkResponse(b *testing.B) {
	loads, months := benchLoads()
	r := NewResponses(DefaultVesselModel(), tableHours)
	for i, p := range loads {
		if _, err := r.of(p, months[i]); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		p := loads[i%len(loads)]
		s, _ := r.of(p, months[i%len(loads)])
		s.Apply(&p, 0, 300)
		s.Met(0)
		i++
	}
}

// BenchmarkColdTable fills a table with the loads of a few years of one plant.
func BenchmarkColdTable(b *testing.B) {
	loads, months := benchLoads()
	for b.Loop() {
		r := NewResponses(DefaultVesselModel(), tableHours)
		for i, p := range loads {
			if _, err := r.of(p, months[i]); err != nil {
				b.Fatal(err)
			}
		}
		standard, direct := r.integrated()
		b.ReportMetric(float64(standard), "standard")
		b.ReportMetric(float64(direct), "direct")
	}
}

func benchLoads() ([]material.Parcel, []time.Month) {
	rng := rand.New(rand.NewPCG(1, 2))
	loads, months := make([]material.Parcel, 2400), make([]time.Month, 2400)
	for i := range loads {
		months[i] = time.Month(1 + i%12)
		loads[i] = plantLoad(rng, months[i])
	}
	return loads, months
}

// BenchmarkReadCourse reads a course of the table that is kept, in place of integrating it.
func BenchmarkReadCourse(b *testing.B) {
	r := NewResponses(DefaultVesselModel(), tableHours)
	r.Recall(func(Point, func([]byte)) {})
	if _, err := r.of(standardLoad(), time.July); err != nil {
		b.Fatal(err)
	}
	var course []byte
	for _, course = range r.Added() {
		break
	}
	b.SetBytes(int64(len(course)))
	for b.Loop() {
		if _, ok := r.read(course); !ok {
			b.Fatal("it cannot be read")
		}
	}
}
