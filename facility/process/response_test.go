package process

import (
	"math"
	"math/rand/v2"
	"sync"
	"testing"
	"time"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// TestCuringTableAgainstIntegration shows the bound of the table for curing
// piles: vessel loads as they come out, some with most chips screened off; for a
// pile that is judged, and for one that is not, as a plant's pad, on more air
// and over a season.
func TestCuringTableAgainstIntegration(t *testing.T) {
	pad := DefaultCuringModel()
	pad.Criteria = nil
	pad.Program = []Segment{{Name: "cure", Hours: 1, Setpoint: 45, MinFlow: 1}}
	pad.Blower.PerDry = 30
	for _, c := range []struct {
		name  string
		m     *Model
		hours float64
	}{
		{"judged", DefaultCuringModel(), tableHours},
		{"pad", pad, 90 * hoursPerDay},
	} {
		t.Run(c.name, func(t *testing.T) {
			vessel, r := DefaultVesselModel(), NewResponses(c.m, c.hours)
			rng := rand.New(rand.NewPCG(3, 4))
			var worst deviation
			for i := range 80 {
				month := time.Month(1 + rng.IntN(12))
				p := course(t, vessel, plantLoad(rng, month), month, residence).Final().Parcel
				if i%2 == 0 {
					off := p.Coarse.Times(0.75)
					p.Coarse = p.Coarse.Minus(off)
					p.Water -= 0.6 * off.Dry()
				}
				worst = worst.worst(deviationOf(t, r, p, month))
			}
			standard, direct := r.integrated()
			t.Logf("worst %+v, %d standard loads, %d integrated on their own", worst, standard, direct)
			if worst.dry > 0.005 || worst.water > 0.005 || worst.hours > 2 || worst.undecided > 0 {
				t.Errorf("the table strays from integration: %+v", worst)
			}
		})
	}
}

// table is shared by the tests below so that its standard loads are integrated
// once.
var table = NewResponses(DefaultVesselModel(), tableHours)

// TestApplyConservesMass shows that advancing any share of a load by any steps
// conserves mass exactly, and arrives where one step arrives.
func TestApplyConservesMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(5, rapid.Uint64Range(0, 20).Draw(t, "load")))
		p := plantLoad(rng, time.June)
		s, err := table.of(p, time.June)
		if err != nil {
			t.Fatal(err)
		}
		p = p.Times(rapid.Float64Range(0.1, 1).Draw(t, "share"))
		steps := rapid.SliceOfN(rapid.Float64Range(0, 90), 1, 8).Draw(t, "steps")

		q, hours := p, 0.0
		var e material.Exchange
		for _, step := range steps {
			e = e.Plus(s.Apply(&q, hours, hours+step))
			hours += step
		}
		if r := p.Total() + e.O2 - q.Total() - e.CO2 - e.NH3 - e.Vapour - e.Leachate; math.Abs(r) > 1e-9*p.Total() {
			t.Errorf("mass residual %g kg", r)
		}
		if r := p.Water + e.Water - q.Water - e.Vapour - e.Leachate; math.Abs(r) > 1e-9*p.Total() {
			t.Errorf("water residual %g kg", r)
		}
		once := p
		s.Apply(&once, 0, hours)
		if !within(q.Dry(), once.Dry(), 1e-9) || !within(q.Water, once.Water, 1e-6) {
			t.Errorf("%d steps lead to %g kg dry and %g kg water, one to %g and %g", len(steps), q.Dry(), q.Water, once.Dry(), once.Water)
		}
	})
}

// TestLooksLeaveNoTrace shows that what a response says of an age does not depend, to the
// last bit, on which ages it was asked for before.
func TestLooksLeaveNoTrace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rng := rand.New(rand.NewPCG(5, rapid.Uint64Range(0, 20).Draw(t, "load")))
		unseen, err := table.of(plantLoad(rng, time.June), time.June)
		if err != nil {
			t.Fatal(err)
		}
		s := unseen
		for _, hours := range rapid.SliceOfN(rapid.SampledFrom([]float64{0, 1, 48, 48.5, 300, 1000}), 2, 10).Draw(t, "hours") {
			fresh := unseen
			if got, want := *s.at(hours), *fresh.at(hours); got != want {
				t.Fatalf("after %g h it is %+v, and %+v if nothing was asked before", hours, got, want)
			}
		}
	})
}

// TestResponseRunsForward shows that age, water lost, air and energy of a
// response never run backwards, and that nothing changes after its end.
func TestResponseRunsForward(t *testing.T) {
	rng := rand.New(rand.NewPCG(6, 7))
	for range 40 {
		month := time.Month(1 + rng.IntN(12))
		p := plantLoad(rng, month)
		s, err := table.of(p, month)
		if err != nil {
			t.Fatal(err)
		}
		q, air := p, 0.0
		for h := 0.0; h < tableHours; h += 3 {
			e := s.Apply(&q, h, h+3)
			now, flow := s.Air(h + 3)
			if e.O2 < 0 || e.Vapour < 0 || e.Leachate < 0 || now < air || flow < 0 {
				t.Fatalf("hour %g: exchange %+v, air %g after %g, flow %g", h, e, now, air, flow)
			}
			air = now
		}
		if e := s.Apply(&q, tableHours, tableHours+100); e != (material.Exchange{}) {
			t.Errorf("after the end: %+v", e)
		}
		b := DefaultVesselModel().Blower
		if want := air * b.PressureDrop / b.Efficiency / 3.6e6; !within(s.blowerEnergy(s.air(tableHours)), want, 1e-9) {
			t.Errorf("energy %g kWh, want %g", s.blowerEnergy(s.air(tableHours)), want)
		}
	}
}

// TestHistoryOfVesselAndCuring shows that a criterion which the vessel alone
// misses is met by vessel and curing together.
func TestHistoryOfVesselAndCuring(t *testing.T) {
	p := standardLoad()
	s, err := table.of(p, time.July)
	if err != nil {
		t.Fatal(err)
	}
	const out = 10 * hoursPerDay
	s.Apply(&p, 0, out)
	m := DefaultCuringModel()
	m.Loading = Loading{Fine: 45, Chips: 45}
	curing, err := NewResponses(m, 480).of(p, time.July)
	if err != nil {
		t.Fatal(err)
	}
	c := VectorAttractionReduction()
	if met := c.Judge(s.Readings(out)); met.OK {
		t.Fatalf("met in the vessel alone: %+v", met)
	}
	met := c.Judge(s.Readings(out), curing.Readings(480))
	if !met.OK || met.Hours <= out {
		t.Errorf("vessel and curing: %+v", met)
	}
}

// TestTableDoesNotDependOnOrder shows that answers are the same for one and for
// eight goroutines that ask in different order, to the bit.
func TestTableDoesNotDependOnOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 9))
	loads := make([]material.Parcel, 60)
	for i := range loads {
		loads[i] = plantLoad(rng, time.Month(1+i%3))
	}
	ask := func(r *Responses, i int) material.Parcel {
		p := loads[i]
		s, err := r.of(p, time.Month(1+i%3))
		if err != nil {
			t.Error(err)
			return p
		}
		s.Apply(&p, 0, 300)
		return p
	}
	one := NewResponses(DefaultVesselModel(), tableHours)
	want := make([]material.Parcel, len(loads))
	for i := range loads {
		want[i] = ask(one, i)
	}
	many := NewResponses(DefaultVesselModel(), tableHours)
	got := make([]material.Parcel, len(loads))
	var wait sync.WaitGroup
	for worker := range 8 {
		wait.Go(func() {
			for i := len(loads) - 1 - worker; i >= 0; i -= 8 {
				got[i] = ask(many, i)
			}
		})
	}
	wait.Wait()
	for i := range loads {
		if got[i] != want[i] {
			t.Errorf("load %d: %+v with eight goroutines, %+v with one", i, got[i], want[i])
		}
	}
	a, _ := one.integrated()
	b, _ := many.integrated()
	if a != b {
		t.Errorf("%d standard loads with one goroutine, %d with eight", a, b)
	}
}

// TestWeightsMeetQuadratics shows that interpolation is exact for every quadratic in the
// axes that a stencil has, without products of axes that are not a pair of it, and that
// the weights add up to 1.
func TestWeightsMeetQuadratics(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := rapid.Float64Range(-1, 1)
		var linear, off [dims]float64
		var square [dims][dims]float64
		var along [dims]bool
		for i := range dims {
			along[i] = rapid.Bool().Draw(t, "along")
			if !along[i] {
				continue
			}
			linear[i], square[i][i] = number.Draw(t, "linear"), number.Draw(t, "square")
			off[i] = number.Draw(t, "off") / 2
			for j := range i {
				if along[j] && rapid.Bool().Draw(t, "pair") {
					square[i][j] = 2 + number.Draw(t, "product")
				}
			}
		}
		f := func(x [dims]float64) float64 {
			sum := 1.0
			for i := range dims {
				sum += linear[i] * x[i]
				for j := range dims {
					sum += square[i][j] * x[i] * x[j]
				}
			}
			return sum
		}
		s := shapeOf(func(axis int) bool { return along[axis] }, func(a, b int) bool { return square[a][b] != 0 })
		got, total := 0.0, 0.0
		all := s.around(place{})
		weights := make([]float64, s.points)
		s.weigh(&off, weights)
		for i, w := range weights {
			var x [dims]float64
			for axis, at := range all[i].at {
				x[axis] = float64(at)
			}
			got += w * f(x)
			total += w
		}
		if math.Abs(got-f(off)) > 1e-9 || math.Abs(total-1) > 1e-12 {
			t.Errorf("interpolated %g, want %g; weights add to %g", got, f(off), total)
		}
	})
}

// TestComposeInvertsCoordinates shows that a standard load stands where it
// should.
func TestComposeInvertsCoordinates(t *testing.T) {
	rng := rand.New(rand.NewPCG(10, 11))
	for range 50 {
		month := time.Month(1 + rng.IntN(12))
		load := randomLoad(rng)
		var x, back [dims]float64
		table.coordinates(&x, &load, table.m.Reached(load), month, math.NaN())
		p, ok := table.compose(x, month)
		if !ok {
			t.Fatal("a real load cannot be composed")
		}
		table.coordinates(&back, &p, table.m.Reached(p), month, math.NaN())
		for i, back := range back {
			if math.Abs(back-x[i]) > 0.01*spacing[i] {
				t.Errorf("coordinate %d: %g came back as %g", i, x[i], back)
			}
		}
	}
}
