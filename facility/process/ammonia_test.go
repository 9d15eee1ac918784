package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// With ammonia by the nitrogen released the table keeps its bounds, and the ammonia of
// a load is within 0.5 % of its nitrogen of what integration gives, in vessels and, for
// what comes out of them dry or rewetted, on pads.
func TestTableAgainstIntegrationWithMicrobes(t *testing.T) {
	vessel, pad := DefaultVesselModel(), DefaultCuringModel()
	vessel.Chemistry.Microbes, pad.Chemistry.Microbes = material.DefaultMicrobes(), material.DefaultMicrobes()
	for name, m := range map[string]*Model{"vessel": vessel, "pad": pad} {
		r := NewResponses(m, tableHours)
		rng := rand.New(rand.NewPCG(5, 6))
		var worst deviation
		off := 0.0
		for range 40 {
			p, month := randomLoad(rng), time.Month(1+rng.IntN(12))
			if m == pad {
				c, err := vessel.Course(p, month, 10*hoursPerDay)
				if err != nil {
					t.Fatal(err)
				}
				p = c.Final().Parcel
				p.Water = max(p.Water, p.Dry()*rng.Float64()*1.2)
			}
			worst = worst.worst(deviationOf(t, r, p, month))
			c, err := m.Course(p, month, tableHours)
			if err != nil {
				t.Fatal(err)
			}
			s, err := r.of(p, month)
			if err != nil {
				t.Fatal(err)
			}
			q := p
			e := s.Apply(&q, 0, tableHours)
			off = max(off, math.Abs(e.NH3-c.Final().Exchange.NH3)*material.NitrogenPerNH3/p.Nitrogen())
		}
		t.Logf("%s: worst %+v, ammonia %.3f %% of the nitrogen", name, worst, 100*off)
		if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 || off > 0.005 {
			t.Errorf("%s: the table strays from integration: %+v, ammonia by %.3f %% of the nitrogen", name, worst, 100*off)
		}
	}
}

// What a plant takes of a load, and when, does not depend on how often it looks at it:
// the ammonia of a course applied in many parts is that of one.
func TestAmmoniaHoweverOftenOneLooks(t *testing.T) {
	m := DefaultVesselModel()
	m.Chemistry.Microbes = material.DefaultMicrobes()
	r := NewResponses(m, tableHours)
	rng := rand.New(rand.NewPCG(9, 10))
	for range 30 {
		p, month := plantLoad(rng, time.July), time.July
		s, err := r.of(p, month)
		if err != nil {
			t.Fatal(err)
		}
		once := p
		want := s.Apply(&once, 0, tableHours)
		var got material.Exchange
		q, at := p, 0.0
		for at < tableHours {
			to := min(tableHours, at+rng.ExpFloat64()*30)
			e := s.Apply(&q, at, to)
			got, at = got.Plus(e), to
		}
		if math.Abs(got.NH3-want.NH3) > 1e-9*want.NH3 || math.Abs(q.Nitrogen()-once.Nitrogen()) > 1e-9*p.Nitrogen() || want.NH3 <= 0 {
			t.Errorf("%.12g kg of ammonia in parts, %.12g at once", got.NH3, want.NH3)
		}
	}
}
