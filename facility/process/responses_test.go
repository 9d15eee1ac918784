package process

import (
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// deviation is how far a response is from the integration of the same load.
type deviation struct {
	dry, water float64 // of the initial mass of each, at its worst at the end of any day
	air        float64 // of the total
	hours      float64 // of a criterion met by both
	undecided  int     // met by one only, and by more than two hours' margin
}

func (d deviation) worst(e deviation) deviation {
	return deviation{
		dry: max(d.dry, e.dry), water: max(d.water, e.water), air: max(d.air, e.air),
		hours: max(d.hours, e.hours), undecided: d.undecided + e.undecided,
	}
}

const tableHours = 20 * hoursPerDay

func deviationOf(t *testing.T, r *Responses, p material.Parcel, month time.Month) deviation {
	t.Helper()
	return deviationFrom(t, r, p, month, math.NaN())
}

// deviationFrom is deviationOf for a load that starts at a temperature.
func deviationFrom(t *testing.T, r *Responses, p material.Parcel, month time.Month, start float64) deviation {
	t.Helper()
	c, err := r.m.CourseFrom(p, month, r.maxHours, start)
	if err != nil {
		t.Fatal(err)
	}
	s, err := r.from(p, month, start)
	if err != nil {
		t.Fatal(err)
	}
	var d deviation
	q, before := p, 0.0
	for _, sample := range c.Samples {
		if math.Mod(sample.Hours, hoursPerDay) != 0 {
			continue
		}
		s.Apply(&q, before, sample.Hours)
		before = sample.Hours
		air, _ := s.Air(sample.Hours)
		d.dry = max(d.dry, math.Abs(q.Dry()-sample.Parcel.Dry())/p.Dry())
		d.water = max(d.water, math.Abs(q.Water-sample.Parcel.Water)/p.Water)
		d.air = max(d.air, math.Abs(air-sample.Air)/c.Final().Air)
	}
	for i, met := range c.Met {
		hours, ok := s.Met(i)
		switch {
		case ok && met.OK:
			d.hours = max(d.hours, math.Abs(hours-met.Hours))
		case ok != met.OK && !nearlySo(r.m.Criteria[i], c.History(), ok):
			d.undecided++
		}
	}
	return d
}

// nearlySo reports whether a criterion two hours shorter or longer would be met as
// the response says.
func nearlySo(c Criterion, history []Reading, ok bool) bool {
	if ok {
		c.Hours -= 2
	} else {
		c.Hours += 2
	}
	return c.Evaluate(history).OK == ok
}

// TestTableAgainstIntegration shows the bound that Responses promises, over
// random loads and months: 0.5 % in masses, two hours in compliance.
func TestTableAgainstIntegration(t *testing.T) {
	r := NewResponses(DefaultVesselModel(), tableHours)
	rng := rand.New(rand.NewPCG(1, 2))
	var worst deviation
	var sum deviation
	const loads = 240
	for range loads {
		p, month := randomLoad(rng), time.Month(1+rng.IntN(12))
		d := deviationOf(t, r, p, month)
		worst = worst.worst(d)
		sum.dry += d.dry / loads
		sum.water += d.water / loads
		sum.hours += d.hours / loads
	}
	t.Logf("worst %+v", worst)
	standard, direct := r.integrated()
	t.Logf("mean %+v, %d standard loads, %d integrated on their own", sum, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}

// TestTableAgainstIntegrationInOnePlant shows the bound where it is needed, on
// many loads as one plant makes them over the year.
func TestTableAgainstIntegrationInOnePlant(t *testing.T) {
	r := NewResponses(DefaultVesselModel(), tableHours)
	rng := rand.New(rand.NewPCG(7, 8))
	var worst deviation
	for i := range 1200 {
		month := time.Month(1 + i%12)
		worst = worst.worst(deviationOf(t, r, plantLoad(rng, month), month))
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, %d standard loads, %d integrated on their own", worst, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}
