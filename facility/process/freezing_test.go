package process

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/moistair"
	"pgregory.net/rapid"
)

// Shows that the temperature of a load is that of its heat: with H counted from water
// at 0 °C, H = C·T above it, between 0 and −L·water the load stays at 0 °C, and below
// all is ice (derived from the definition of the heats); and that it rises with heat.
func TestFeltTemperatureHoldsItsHeat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := HeatCapacity{Solids: rapid.Float64Range(0.8, 2).Draw(t, "solids"), Fusion: FusionHeat}
		dry, water := rapid.Float64Range(1, 1e4).Draw(t, "dry"), rapid.Float64Range(0, 2e4).Draw(t, "water")
		level := rapid.Float64Range(-200, 80).Draw(t, "level")
		heat := h.Of(dry, water) * level
		at := h.felt(level, dry, water)
		want := heat / h.Of(dry, water)
		switch {
		case heat >= 0:
		case heat >= -FusionHeat*water:
			want = 0
		default:
			want = (heat + FusionHeat*water) / (h.Solids*dry + iceHeat*water)
		}
		if math.Abs(at-want) > 1e-9*max(1, math.Abs(want)) {
			t.Fatalf("%g °C at a level of %g, want %g", at, level, want)
		}
		if h.felt(level+1, dry, water) < at {
			t.Fatal("it gets colder with more heat")
		}
	})
}

// Shows that cake and frozen chips come together at what their heats add up to
// (derived): 1 t of cake water at 10 °C and 0.2 t of ice at −10 °C, solids aside,
// leave 1,000·4.186·10 − 200·(334 + 2.1·10) = −29,140 kJ: at 0 °C, with 87 kg of ice.
func TestFrozenChipsInTheMix(t *testing.T) {
	m := DefaultVesselModel()
	m.Heat = HeatCapacity{Solids: 1e-9, Fusion: FusionHeat}
	m.Intake = &Intake{}
	m.Intake.Cake[0], m.Intake.Chips[0] = 10, -10
	m.Bulk.CoarseHolding = 2
	p := material.Parcel{Water: 1200, Fine: material.Solids{Fixed: 200}, Coarse: material.Solids{Refractory: 100}}
	of := p.Matter()
	level := m.startLevel(&of, time.January)
	want := (1000*moistair.WaterHeat*10 - 200*(FusionHeat+iceHeat*10)) / (1200 * moistair.WaterHeat)
	if math.Abs(level-want) > 1e-6 {
		t.Errorf("level %g, want %g", level, want)
	}
	r := m.start(p, time.January, math.NaN(), fixed(0.5))
	if ice := -level * m.Heat.Of(300, 1200) / FusionHeat; r.temperature != 0 || math.Abs(ice-87) > 1 {
		t.Errorf("%g °C with %g kg of ice", r.temperature, ice)
	}
}

// Shows that a load with ice stays at 0 °C until it is gone, gets hot later than one
// whose water does not freeze, and that its heat account closes.
func TestThawing(t *testing.T) {
	warm := livelyModel()
	warm.Kinetics.Curve.Cardinal = Cardinal{} // some life at 0 °C
	warm.Kinetics.Readily, warm.Kinetics.Slowly = 0.02, 0.001
	warm.Kinetics.Awakening.First = 0.02
	for i := range warm.Intake.Chips {
		warm.Intake.Cake[i], warm.Intake.Chips[i] = 16, -4
	}
	frozen := *warm
	warm.Heat.Fusion = 0
	p := mix(lively(cakeSpec()), chipSpec(), 2.5, 18144)
	a, b := course(t, warm, p, time.February, tableHours), course(t, &frozen, p, time.February, tableHours)
	if b.Start != 0 || a.Start <= 0 {
		t.Fatalf("starts at %g and, without ice, %g °C", b.Start, a.Start)
	}
	if !(b.reached(55) > a.reached(55)+0.5) || math.IsInf(b.reached(55), 1) {
		t.Errorf("55 °C on day %.1f with ice, %.1f without", b.reached(55), a.reached(55))
	}
	for _, c := range []*Course{a, b} {
		if r := c.Energy.Residual(); math.Abs(r) > 1e-9*c.Energy.Generated {
			t.Errorf("the heat account misses %g of %g kJ", r, c.Energy.Generated)
		}
	}
	for _, s := range b.Samples {
		if s.Temperature > 1e-9 {
			t.Logf("thawed by hour %g; 55 °C on day %.1f, without ice %.1f", s.Hours, b.reached(55), a.reached(55))
			break
		}
	}
}

// Shows that a load which comes to no life in deep frost freezes through, and that its
// heat account closes below 0 °C too: the walls take the heat of fusion (derived).
func TestFreezingThrough(t *testing.T) {
	m := livelyModel()
	m.Heat.Fusion = FusionHeat
	m.Site.Temperature[0] = -30
	m.Enclosure.Conductance = 40
	m.Intake.Cake[0], m.Intake.Chips[0] = 2, 2
	p := mix(cakeSpec(), chipSpec(), 2.5, 800)
	c := course(t, m, p, time.January, 1500)
	f := c.Final()
	if f.Temperature > -25 || f.Temperature < -30.01 {
		t.Errorf("%g °C at the end, want near −30", f.Temperature)
	}
	if r := c.Energy.Residual(); math.Abs(r) > 1e-9*math.Abs(c.Energy.Stored) {
		t.Errorf("the heat account misses %g kJ", r)
	}
	if lost := c.Energy.Wall + c.Energy.AirDry + c.Energy.AirLatent; lost < 0.99*FusionHeat*f.Parcel.Water {
		t.Errorf("%g kJ lost, less than the water gives up in freezing", lost)
	}
}

// Shows that standard loads of which some come in with ice and some do not are not
// interpolated: they start at 0 °C and above it, and what lies between bends there.
func TestIceAndNoneAreNotInterpolated(t *testing.T) {
	m := livelyModel()
	p := mix(lively(cakeSpec()), chipSpec(), 2.5, 17500)
	with := func(chips float64) *node {
		in := *m
		in.Intake = &Intake{}
		in.Intake.Cake[3], in.Intake.Chips[3] = 20, chips
		return in.start(p, time.April, math.NaN(), tableSteps).reduce(tableHours, even(tablePace))
	}
	ice, none := with(-2), with(0.1)
	if !ice.frozen || none.frozen {
		t.Fatalf("frozen %v and %v", ice.frozen, none.frozen)
	}
	none.warm, none.points = ice.warm, ice.points // alike in all else
	for _, c := range []struct {
		nodes []*node
		want  bool
	}{{[]*node{ice, ice}, true}, {[]*node{none, none}, true}, {[]*node{ice, none}, false}} {
		st := &stencil{nodes: c.nodes}
		if got := st.alike(m, tableHours, 0); got != c.want {
			t.Errorf("interpolated %v, want %v", got, c.want)
		}
	}
}
