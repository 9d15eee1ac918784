package process

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// TestCourseBalances shows, over random models and loads, with all that a file can switch
// on switched on or off, that mass, water, oxygen, carbon, nitrogen and heat of a course
// each close to 1e-9; that no quantity is impossible, falls below zero or runs backwards;
// that what air does not reach stays; and that no load gets hotter by a step whose mean
// lies where its rate vanishes.
func TestCourseBalances(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, p := drawModel(t), drawLoad(t)
		if err := m.Validate(); err != nil {
			t.Fatal(err)
		}
		month := time.Month(rapid.IntRange(1, 12).Draw(t, "month"))
		c, err := m.Course(p, month, 300)
		if err != nil {
			t.Fatal(err)
		}
		checkBalances(t, m, c)
		if said := possible(m, c, month); said != "" {
			t.Error(said)
		}
	})
}

func checkBalances(t rapid.TB, m *Model, c *Course) {
	f := c.Final()
	p, q, e := c.Initial, f.Parcel, f.Exchange
	oxygen := oxygenPer(&m.Chemistry)
	burnt, used := 0.0, 0.0
	before, after := poolsOf(&p), poolsOf(&q)
	for i := range before {
		burnt += before[i] - after[i]
		used += (before[i] - after[i]) * oxygen[i]
	}
	for _, row := range []struct {
		name              string
		in, out, relative float64
	}{
		{"total", p.Total() + e.O2, q.Total() + e.CO2 + e.NH3 + e.Vapour + e.Leachate, p.Total()},
		{"water", p.Water + e.Water, q.Water + e.Vapour + e.Leachate, p.Water},
		{"volatile solids", p.Volatile(), q.Volatile() + e.Volatile, p.Volatile()},
		{"fixed solids", p.Fixed(), q.Fixed(), p.Fixed()},
		{"oxygen", used, e.O2, e.O2 + 1e-4*p.Dry()}, // a frozen load takes up next to none
		{"oxygen by heat", c.Energy.Generated / m.HeatOfOxygen, e.O2, e.O2 + 1e-4*p.Dry()},
		{"carbon", p.Carbon(), q.Carbon() + e.CO2*material.CarbonPerCO2, p.Carbon()},
		{"nitrogen", p.Nitrogen(), q.Nitrogen() + e.NH3*material.NitrogenPerNH3, p.Nitrogen()},
	} {
		if residual := math.Abs(row.in - row.out); !(residual <= 1e-9*row.relative) {
			t.Errorf("%s: %.12g in, %.12g out", row.name, row.in, row.out)
		}
	}
	scale := c.Energy.Generated + math.Abs(c.Energy.Stored) + math.Abs(c.Energy.Wall) + c.Energy.AirLatent + c.Energy.Handling +
		m.Heat.Of(p.Dry(), p.Water) // a kelvin of it, should little else happen
	if r := math.Abs(c.Energy.Residual()); !(r <= 1e-9*scale) {
		t.Errorf("heat: residual %.3g of %.3g kJ: %+v", r, scale, c.Energy)
	}
	if burnt < 0 {
		t.Errorf("%g kg burnt", burnt)
	}
}

// TestControlHolds shows that the control keeps a load at its setpoint while the
// blower can, without swinging.
func TestControlHolds(t *testing.T) {
	m := DefaultVesselModel()
	c := course(t, m, standardLoad(), time.July, 7*hoursPerDay)
	held := 0
	for _, s := range c.Samples {
		if s.Temperature > 60+1e-6 {
			t.Errorf("hour %g: %g °C above the setpoint", s.Hours, s.Temperature)
		}
		if s.Hours > 72 {
			held++
			if math.Abs(s.Temperature-60) > 1e-6 {
				t.Errorf("hour %g: %g °C, want 60", s.Hours, s.Temperature)
			}
		}
	}
	if held < 100 {
		t.Errorf("only %d samples looked at", held)
	}
}

// TestHalfStep shows that halving the step changes masses by less than 0.5 % and
// compliance by less than an hour: in fact far less, the method being of second
// order.
func TestHalfStep(t *testing.T) {
	coarse, fine := DefaultVesselModel(), DefaultVesselModel()
	for _, step := range []float64{1, 0.5} {
		coarse.Step, fine.Step = step, step/2
		for _, month := range []time.Month{time.January, time.April, time.July} {
			a := course(t, coarse, standardLoad(), month, 480)
			b := course(t, fine, standardLoad(), month, 480)
			for _, row := range []struct {
				name string
				a, b float64
			}{
				{"dry mass", a.Final().Parcel.Dry(), b.Final().Parcel.Dry()},
				{"water", a.Final().Parcel.Water, b.Final().Parcel.Water},
				{"air", a.Final().Air, b.Final().Air},
			} {
				if !within(row.a, row.b, 0.005) {
					t.Errorf("%s, %g h: %s %g against %g", month, step, row.name, row.a, row.b)
				}
			}
			for i := range a.Met {
				if a.Met[i].OK != b.Met[i].OK || math.Abs(a.Met[i].Hours-b.Met[i].Hours) >= 1 {
					t.Errorf("%s, %g h: %s %+v against %+v", month, step, coarse.Criteria[i].Name, a.Met[i], b.Met[i])
				}
			}
		}
	}
}
