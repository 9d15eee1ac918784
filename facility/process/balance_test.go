package process

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"pgregory.net/rapid"
)

// drawModel draws a model with settings well off the defaults.
func drawModel(t *rapid.T) *Model {
	m := DefaultVesselModel()
	between := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	m.Enclosure.Conductance = between("conductance", 0, 5)
	m.Enclosure.Exhaust = between("exhaust", 0.6, 1)
	m.Enclosure.Returned = between("returned", 0, 0.5)
	m.Enclosure.Holding = between("holding", 2, 6)
	m.Blower.Capacity = between("capacity", 20, 3000)
	m.Site.Altitude = between("altitude", 0, 2500)
	m.Step = rapid.SampledFrom([]float64{0.25, 0.5, 0.7, 1}).Draw(t, "step")
	for i := range m.Site.Temperature {
		m.Site.Temperature[i] = between("site", -25, 35)
	}
	for i := range m.Program {
		m.Program[i].Setpoint = between("setpoint", 30, 75)
		m.Program[i].Hours = between("segment", 5, 300)
		m.Program[i].MinFlow = between("min flow", 0, 30)
	}
	on := func(name string) bool { return rapid.Bool().Draw(t, name) }
	if on("lively") {
		m.Kinetics.Rapidly = between("rapidly", 0, 0.5)
		m.Kinetics.Curve.Cardinal = Cardinal{Least: between("least", -10, 10), Best: between("best", 50, 62), Most: between("most", 65, 85)}
		m.Kinetics.Awakening = Awakening{First: between("first", 1e-4, 1), Rate: between("growth", 0.1, 10)}
	}
	if on("intake") {
		m.Intake = new(Intake)
		for i := range m.Intake.Cake {
			m.Intake.Cake[i], m.Intake.Chips[i] = between("cake", -20, 40), between("chips", -40, 40)
		}
	}
	if on("freezing") {
		m.Heat.Fusion = FusionHeat
	}
	return m
}

func drawLoad(t *rapid.T) material.Parcel {
	cake, chips := cakeSpec(), chipSpec()
	cake.Moisture = rapid.Float64Range(0.65, 0.88).Draw(t, "cake moisture")
	cake.Rapidly = rapid.Float64Range(0, 0.15).Draw(t, "rapidly degradable")
	chips = chips.WithMoisture(rapid.Float64Range(0.1, 0.6).Draw(t, "chip moisture"))
	ratio := rapid.Float64Range(0, 5).Draw(t, "ratio")
	return mix(cake, chips, ratio, rapid.Float64Range(200, 25000).Draw(t, "kg"))
}

// TestCourseBalances shows, over random models and loads, with what is off by default on
// and off, that mass, water, oxygen, carbon, nitrogen and heat of a course each close to 1e-9; that no
// quantity falls below zero or runs backwards; and that no load gets hotter by a step
// whose mean lies where its rate vanishes.
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
		checkOrder(t, m, c, month)
	})
}

func checkBalances(t rapid.TB, m *Model, c *Course) {
	f := c.Final()
	p, q, e := c.Initial, f.Parcel, f.Exchange
	oxygen := oxygenPer(m.Chemistry)
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
	scale := c.Energy.Generated + math.Abs(c.Energy.Stored) + math.Abs(c.Energy.Wall) + c.Energy.AirLatent +
		m.Heat.Of(p.Dry(), p.Water) // a kelvin of it, should little else happen
	if r := math.Abs(c.Energy.Residual()); !(r <= 1e-9*scale) {
		t.Errorf("heat: residual %.3g of %.3g kJ: %+v", r, scale, c.Energy)
	}
	if burnt < 0 {
		t.Errorf("%g kg burnt", burnt)
	}
}

func checkOrder(t *rapid.T, m *Model, c *Course, month time.Month) {
	least := math.Min(c.Start, m.Site.Temperature[month-1]) - 25 // evaporation cools below both
	before := Sample{Parcel: c.Initial, Temperature: c.Start}
	for _, s := range c.Samples {
		switch {
		case s.Temperature > before.Temperature && s.Mean > m.Kinetics.Curve.Vanishes()+1e-3:
			t.Fatalf("hour %g: %g °C", s.Hours, s.Temperature)
		case !(s.Temperature > least):
			t.Fatalf("hour %g: %g °C is below any reason", s.Hours, s.Temperature)
		case !(s.Oxygen >= 0 && s.Oxygen <= inletOxygen):
			t.Fatalf("hour %g: oxygen %g %%", s.Hours, s.Oxygen)
		case !(s.Parcel.Water >= 0) || s.Parcel.Fine.Rapidly < 0 || s.Parcel.Fine.Readily < 0 || s.Parcel.Coarse.Slowly < 0:
			t.Fatalf("hour %g: negative mass %+v", s.Hours, s.Parcel)
		case s.Exchange.O2 < before.Exchange.O2, s.Exchange.Vapour < before.Exchange.Vapour,
			s.Exchange.Leachate < before.Exchange.Leachate, s.Air < before.Air, s.Blower < before.Blower:
			t.Fatalf("hour %g: a total ran backwards", s.Hours)
		case s.Flow > (m.Blower.Capacity+m.Blower.PerDry*c.Initial.Dry()/1000)*(1+1e-9):
			t.Fatalf("hour %g: flow %g m3/h is above the blower's", s.Hours, s.Flow)
		}
		before = s
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
