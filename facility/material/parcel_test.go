package material

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// richParcel draws a parcel whose carbon and nitrogen suffice for its formulas.
func richParcel(t *rapid.T) Parcel {
	kg := func(name string) float64 { return rapid.Float64Range(0, 1e5).Draw(t, name) }
	solids := func(name string) Solids {
		s := Solids{Fixed: kg(name + " fixed"), Rapidly: kg(name + " rapidly"), Readily: kg(name + " readily"), Slowly: kg(name + " slowly"), Refractory: kg(name + " refractory")}
		s.Carbon = 0.6 * s.Volatile()
		s.Nitrogen = 0.08 * s.Volatile()
		return s
	}
	return Parcel{Water: kg("water"), Fine: solids("fine"), Coarse: solids("coarse")}
}

func near(a, b, scale float64) bool { return math.Abs(a-b) <= 1e-12*math.Max(1, scale) }

// same reports whether two sets of components agree but for rounding.
func same(a, b Components) bool {
	y := b.Each()
	for i, x := range a.Each() {
		if !near(x, y[i], math.Abs(x)+math.Abs(y[i])) {
			return false
		}
	}
	return true
}

// What is taken and what is left add up to what was there, at the same
// composition; taking all leaves exactly nothing.
func TestTakeKeepsMass(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		whole := richParcel(t)
		left := whole
		taken := left.Take(rapid.Float64Range(-0.5, 1.5).Draw(t, "fraction"))
		if sum := taken.Plus(left); !same(sum.Components(), whole.Components()) {
			t.Fatalf("%+v and %+v do not add up to %+v", taken, left, whole)
		}
		if taken.Total() > 0 && !near(taken.Moisture(), whole.Moisture(), 1) {
			t.Fatalf("moisture of the part %g, of the whole %g", taken.Moisture(), whole.Moisture())
		}
		if left.Take(1); left != (Parcel{}) {
			t.Fatalf("%+v left after taking all", left)
		}
	})
}

// Oxidation conserves mass, carbon and nitrogen to the atom, never takes more
// than there is, and leaves no component negative.
func TestOxidiseConserves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := richParcel(t)
		c := DefaultChemistry()
		c.Retained = rapid.Float64Range(0, 1).Draw(t, "retained")
		kg := func(name string) float64 { return rapid.Float64Range(-10, 2e5).Draw(t, name) }
		after := before
		e := after.Oxidise(Oxidation{kg("a"), kg("b"), kg("c"), kg("d"), kg("e"), kg("f")}, &c)
		scale := before.Total() + e.O2 + e.CO2
		for _, r := range []struct {
			name string
			kg   float64
		}{
			{"total", after.Total() - before.Total() - e.O2 + e.CO2 + e.NH3},
			{"water", after.Water - before.Water - e.Water},
			{"volatile", after.Volatile() - before.Volatile() + e.Volatile},
			{"carbon", after.Carbon() - before.Carbon() + e.CO2*CarbonPerCO2},
			{"nitrogen", after.Nitrogen() - before.Nitrogen() + e.NH3*NitrogenPerNH3},
			{"fixed", after.Fixed() - before.Fixed()},
		} {
			if math.Abs(r.kg) > 1e-12*scale {
				t.Fatalf("%s: %g kg unaccounted for", r.name, r.kg)
			}
		}
		for _, s := range []Solids{after.Fine, after.Coarse} {
			for _, v := range []float64{s.Fixed, s.Rapidly, s.Readily, s.Slowly, s.Refractory, s.Carbon, s.Nitrogen} {
				if v < -1e-9*scale {
					t.Fatalf("negative component in %+v", s)
				}
			}
		}
	})
}

// Wear and evaporation move mass, and make or lose none.
func TestWearAndEvaporate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := richParcel(t)
		before := p
		p.Wear(rapid.Float64Range(-0.5, 1.5).Draw(t, "wear"))
		if !same(p.Components(), before.Components()) {
			t.Fatalf("wear turned %+v into %+v", before, p)
		}
		if p.Coarse.Dry() > before.Coarse.Dry() {
			t.Fatal("wear made coarse matter")
		}
		gone := p.Evaporate(rapid.Float64Range(-10, 2e5).Draw(t, "evaporated"))
		if p.Water < 0 || gone < 0 || !near(p.Water+gone, before.Water, before.Water) {
			t.Fatalf("%g kg evaporated of %g, %g left", gone, before.Water, p.Water)
		}
	})
}

// A specification makes the parcel that it describes, and refuses analyses
// that contradict the oxidation formulas.
func TestSpec(t *testing.T) {
	s := Spec{Name: "cake", Moisture: 0.8, Volatile: 0.75, Rapidly: 0.04, Readily: 0.5, Slowly: 0.1, Nitrogen: 0.045, Coarse: 0, BulkDensity: 1000}
	p := s.OfWet(1000)
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"wet mass", p.Total(), 1000},
		{"dry mass", p.Dry(), 200},
		{"volatile solids", p.Volatile(), 150},
		{"rapidly degradable", p.Fine.Rapidly, 6},
		{"readily degradable", p.Fine.Readily, 75},
		{"rapidly or readily degradable", p.Degradable(), 81},
		{"all classes, of the volatile solids", p.Fine.Rapidly + p.Fine.Readily + p.Fine.Slowly + p.Fine.Refractory, 150},
		{"carbon, VS/1.8", p.Carbon(), 150 / 1.8},
		{"nitrogen", p.Nitrogen(), 9},
		{"density at half the solids", s.WithMoisture(0.9).BulkDensity, 2000},
	} {
		if !near(c.got, c.want, c.want) {
			t.Errorf("%s: %g, want %g", c.name, c.got, c.want)
		}
	}
	c := DefaultChemistry()
	if err := s.Validate(c); err != nil {
		t.Errorf("a sound specification is refused: %v", err)
	}
	for name, spoil := range map[string]func(*Spec){
		"too little nitrogen":    func(s *Spec) { s.Nitrogen = 0.01 },
		"too little carbon":      func(s *Spec) { s.Carbon = 0.1 },
		"more than all":          func(s *Spec) { s.Slowly = 0.6 },
		"no solids":              func(s *Spec) { s.Moisture = 1 },
		"negative":               func(s *Spec) { s.Volatile = -0.1 },
		"not a number":           func(s *Spec) { s.Moisture = math.NaN() },
		"weightless":             func(s *Spec) { s.BulkDensity = 0 },
		"more coarse than whole": func(s *Spec) { s.Coarse = 1.1 },
	} {
		bad := s
		spoil(&bad)
		if bad.Validate(c) == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}
