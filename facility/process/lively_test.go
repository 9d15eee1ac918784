package process

import (
	"math/rand/v2"
	"testing"
	"time"

	"loamcast/facility/material"
)

// livelyModel has all that is off by default: rapidly degradable matter, a curve with
// an optimum, a load that comes to life, cake and chips at temperatures of their own,
// and ice.
func livelyModel() *Model {
	m := DefaultVesselModel()
	m.Kinetics = LivelyKinetics()
	m.Heat.Fusion = FusionHeat
	m.Intake = &Intake{
		Cake:  [12]float64{12, 12, 13, 15, 17, 19, 21, 21, 19, 17, 15, 13},
		Chips: [12]float64{-6, -4, 2, 8, 14, 18, 21, 20, 15, 9, 3, -4},
	}
	return m
}

// lively takes a part of the volatile solids of a cake's readily degradable matter
// for rapidly degradable.
func lively(cake material.Spec) material.Spec {
	const part = 0.12
	cake.Rapidly, cake.Readily = part, cake.Readily-part
	return cake
}

// Shows the bound of the table, 0.5 % in masses and two hours in compliance, over
// random loads and months, some with much that degrades rapidly and some with none,
// with ice and without.
func TestTableAgainstIntegrationWithAllOn(t *testing.T) {
	r := NewResponses(livelyModel(), tableHours)
	rng := rand.New(rand.NewPCG(11, 12))
	var worst, sum deviation
	const loads = 240
	for i := range loads {
		p, month := randomLoad(rng), time.Month(1+i%12)
		turned := p.Fine.Readily * rng.Float64() * 0.6
		p.Fine.Rapidly, p.Fine.Readily = turned, p.Fine.Readily-turned
		d := deviationOf(t, r, p, month)
		worst = worst.worst(d)
		sum.dry += d.dry / loads
		sum.water += d.water / loads
		sum.hours += d.hours / loads
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, mean %+v, %d standard loads, %d integrated on their own", worst, sum, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}

// Shows the bound on the loads of one plant over the year, with all on.
func TestTableAgainstIntegrationInOneLivelyPlant(t *testing.T) {
	r := NewResponses(livelyModel(), tableHours)
	rng := rand.New(rand.NewPCG(13, 14))
	var worst deviation
	for i := range 600 {
		month := time.Month(1 + i%12)
		p := plantLoad(rng, month)
		turned := p.Fine.Readily * (0.24 + 0.04*rng.Float64())
		p.Fine.Rapidly, p.Fine.Readily = turned, p.Fine.Readily-turned
		worst = worst.worst(deviationOf(t, r, p, month))
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, %d standard loads, %d integrated on their own", worst, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}
