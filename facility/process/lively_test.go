package process

import (
	"math"
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

// Shows the bound on lots that cure with the lively rates, as they come out of their
// vessels: on the pad nearly nothing that degrades rapidly is left, and so the table
// needs no more standard loads than without.
func TestCuringTableOfLivelyLoads(t *testing.T) {
	vessel, pad := livelyModel(), DefaultCuringModel()
	pad.Kinetics, pad.Kinetics.Awakening = LivelyKinetics(), Awakening{}
	pad.Heat.Fusion = FusionHeat
	r := NewResponses(pad, tableHours)
	rng := rand.New(rand.NewPCG(15, 16))
	var worst deviation
	for i := range 60 {
		month := time.Month(1 + i%12)
		p := plantLoad(rng, month)
		turned := p.Fine.Readily * 0.26
		p.Fine.Rapidly, p.Fine.Readily = turned, p.Fine.Readily-turned
		out := course(t, vessel, p, month, residence).Final().Parcel
		var x [dims]float64
		r.coordinates(&x, &out, r.m.Reached(out), month, math.NaN())
		if share := x[rapidAxis]; share != 0 && month > time.March && month < time.November {
			t.Errorf("%s: rapid matter is %g of the uptake on the pad", month, share)
		}
		worst = worst.worst(deviationOf(t, r, out, month))
	}
	standard, direct := r.integrated()
	t.Logf("worst %+v, %d standard loads, %d integrated on their own", worst, standard, direct)
	if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
		t.Errorf("the table strays from integration: %+v", worst)
	}
}

// Shows that a load with chips that degrade rapidly, which no standard load has, is
// integrated itself, and answered as the integration has it.
func TestRapidChipsAreIntegrated(t *testing.T) {
	r := NewResponses(livelyModel(), tableHours)
	p := mix(lively(cakeSpec()), chipSpec(), 2.5, 17500)
	p.Coarse.Rapidly = 0.2 * p.Coarse.Slowly
	d := deviationOf(t, r, p, time.May)
	if _, direct := r.integrated(); direct != 1 || d.dry > 0.001 || d.water > 0.002 || d.hours > 1 {
		t.Errorf("%d integrated on their own, off by %+v", direct, d)
	}
}

// Shows that a load without any air, where control asks for none, takes up nothing and does
// not awake, its course being numbers all along, and that with air from then on it does.
func TestLoadWithoutAirDoesNotAwake(t *testing.T) {
	m := livelyModel()
	m.Blower.LeastOxygen = 0
	for i := range m.Program {
		m.Program[i].MinFlow = 0
	}
	c := course(t, m, standardLoad(), time.July, 100)
	if f := c.Final(); f.Exchange.O2 != 0 || math.Abs(f.Temperature-c.Start) > 2 {
		t.Errorf("without air: %g kg of oxygen, from %g to %g °C", f.Exchange.O2, c.Start, f.Temperature)
	}
	m.Program = append([]Segment{{Name: "closed", Hours: 100, Setpoint: 60}}, DefaultVesselModel().Program...)
	if f := course(t, m, standardLoad(), time.July, 300).Final(); !(f.Temperature > 55) {
		t.Errorf("with air from 100 h on %g °C at 300 h", f.Temperature)
	}
}
