package process

import (
	"math"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// TestHandlingByHand shows what handling leaves, by arithmetic on its definition: a
// third of 45 K above the air and 5 K, never below the air, and a cold or frozen load as
// it is.
func TestHandlingByHand(t *testing.T) {
	h := Handling{Share: 1. / 3, Drop: 5}
	for _, c := range []struct{ t, ambient, want float64 }{
		{50, 5, 30}, {10, 5, 5}, {5, 5, 5}, {-19.7, -25, -19.7}, {-30, -25, -30}, {3, -25, 0}, {0, -25, 0},
	} {
		if got := h.After(c.t, c.ambient); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%g °C in air of %g: %g, want %g", c.t, c.ambient, got, c.want)
		}
	}
}

// TestMoreHandlingIsNeverWarmer shows that a larger loss never makes a warmer pile, that
// handling never cools below the air or warms, and that it is continuous in the air.
func TestMoreHandlingIsNeverWarmer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tipped, ambient := rapid.Float64Range(-30, 75).Draw(t, "tipped"), rapid.Float64Range(-40, 40).Draw(t, "ambient")
		h := Handling{Share: rapid.Float64Range(0, 1).Draw(t, "share"), Drop: rapid.Float64Range(0, 30).Draw(t, "drop")}
		more := Handling{Share: h.Share + (1-h.Share)*rapid.Float64Range(0, 1).Draw(t, "more share"), Drop: h.Drop + rapid.Float64Range(0, 9).Draw(t, "more drop")}
		a, b := h.After(tipped, ambient), more.After(tipped, ambient)
		if b > a+1e-9 || a > tipped+1e-9 || a < min(tipped, ambient)-1e-9 {
			t.Errorf("%g °C after handling, %g after more", a, b)
		}
		if near := h.After(tipped, ambient+1e-3); math.Abs(near-a) > 2e-3 {
			t.Errorf("%g °C, and %g in air a thousandth warmer", a, near)
		}
	})
}

// TestTurningByHand shows that a pile is turned at the hours given, that it is then at
// the temperature which handling leaves, and that the heat account closes (derived).
func TestTurningByHand(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 10*hoursPerDay).Final().Parcel
	still := course(t, DefaultCuringModel(), p, time.May, 30*hoursPerDay)
	m := DefaultCuringModel()
	m.Turning = Turning{At: []float64{100, 300.25}, Loses: Handling{Share: 0.5}}
	c := course(t, m, p, time.May, 30*hoursPerDay)
	checkBalances(t, m, c)
	lost := 0.0
	for i, s := range c.Samples[1:] {
		before := c.Samples[i]
		if before.Hours == 100 || before.Hours == 300.25 {
			start := m.Turning.Loses.After(before.Temperature, m.Site.Temperature[time.May-1])
			lost += (before.Temperature - start) * m.Heat.Of(before.Parcel.Dry(), before.Parcel.Water)
			if got := 2*s.Mean - s.Temperature; math.Abs(got-start) > 1e-5 {
				t.Errorf("turned at %g h: goes on from %g °C, want %g", before.Hours, got, start)
			}
		}
	}
	if math.Abs(c.Energy.Handling-lost) > 1e-9*lost || lost == 0 || still.Energy.Handling != 0 {
		t.Errorf("lost by turning %g kJ, want %g", c.Energy.Handling, lost)
	}
}

// TestTurnedWhenHot shows that a pile which is turned by its temperature is turned as soon
// as it is hot and has lain still long enough, and never else; that it is cooled by what
// turning loses; that the heat account closes; and that a pile which never gets so hot is
// as if it were not turned (derived).
func TestTurnedWhenHot(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 6*hoursPerDay).Final().Parcel
	const above, apart = 47, 72.0
	hot := DefaultCuringModel()
	hot.Turning = Turning{Above: above, Apart: apart, Loses: Handling{Share: 0.4}}
	c := course(t, hot, p, time.May, 40*hoursPerDay)
	checkBalances(t, hot, c)
	turned, lay := 0, 0.0
	before := Sample{Temperature: c.Start}
	for _, s := range c.Samples {
		due := before.Temperature >= above && before.Hours >= lay+apart
		start := before.Temperature
		if due {
			start = hot.Turning.Loses.After(start, hot.Site.Temperature[time.May-1])
			turned, lay = turned+1, before.Hours
		}
		if got := 2*s.Mean - s.Temperature; math.Abs(got-start) > 1e-5 {
			t.Fatalf("hour %g at %g °C: goes on from %g, want %g", before.Hours, before.Temperature, got, start)
		}
		before = s
	}
	if turned < 3 || c.Energy.Handling <= 0 {
		t.Errorf("turned %d times, which takes %g kJ", turned, c.Energy.Handling)
	}
	hot.Turning.Above = 79
	cool, still := course(t, hot, p, time.May, 40*hoursPerDay), course(t, DefaultCuringModel(), p, time.May, 40*hoursPerDay)
	if cool.Energy.Handling != 0 || math.Abs(cool.Final().Parcel.Water-still.Final().Parcel.Water) > 1e-6*still.Final().Parcel.Water {
		t.Errorf("turned at 79 °C: %g kg of water, unturned %g", cool.Final().Parcel.Water, still.Final().Parcel.Water)
	}
}

// TestTurningThawsNothing shows that a pile that is frozen in part, at 0 °C, is what it
// would be without being turned, in any air: what handling would take is heat above 0 °C,
// and it brings none.
func TestTurningThawsNothing(t *testing.T) {
	for _, ambient := range []float64{-20, 0, 15} {
		m := DefaultCuringModel()
		m.Heat.Fusion = FusionHeat
		m.Site.Temperature[time.January-1] = ambient
		m.Intake = &Intake{}
		m.Intake.Cake[time.January-1], m.Intake.Chips[time.January-1] = 0.5, -20
		m.Enclosure.Conductance = 0.1
		still := course(t, m, standardLoad(), time.January, 10)
		m.Turning = Turning{At: []float64{2}, Loses: Handling{Share: 0.5, Drop: 3}}
		turned := course(t, m, standardLoad(), time.January, 10)
		if still.Start != 0 || still.Samples[3].Temperature != 0 {
			t.Fatalf("the load is at %g °C, then %g, not half frozen", still.Start, still.Samples[3].Temperature)
		}
		if turned.Energy.Handling != 0 || math.Abs(turned.Energy.Stored-still.Energy.Stored) > 1e-4*math.Abs(still.Energy.Stored) {
			t.Errorf("in air of %g °C turning takes %g kJ; stored are %g, unturned %g", ambient, turned.Energy.Handling, turned.Energy.Stored, still.Energy.Stored)
		}
	}
}

// TestPileIsContinuous shows that a pile changes by little where the temperature at
// which it was tipped, the weather or the insulation change by little.
func TestPileIsContinuous(t *testing.T) {
	p := course(t, DefaultVesselModel(), standardLoad(), time.May, 12*hoursPerDay).Final().Parcel
	rapid.Check(t, func(t *rapid.T) {
		start, ambient := rapid.Float64Range(-20, 65).Draw(t, "start"), rapid.Float64Range(-20, 30).Draw(t, "ambient")
		run := func(more float64) (dry, temperature float64) {
			m := tippedPad()
			m.Turning = DefaultTurning()
			m.Site.Temperature[time.May-1] = ambient + more
			m.Enclosure.Conductance += more
			c, err := m.CourseFrom(p, time.May, 40*hoursPerDay, start+more)
			if err != nil {
				t.Fatal(err)
			}
			return c.Final().Parcel.Dry(), c.Final().Temperature
		}
		dry, temperature := run(0)
		dry2, temperature2 := run(1e-3)
		if math.Abs(dry2-dry) > 1e-3*dry || math.Abs(temperature2-temperature) > 0.2 {
			t.Errorf("dry %g and %g kg, at the end %g and %g °C", dry, dry2, temperature, temperature2)
		}
	})
}
