package material

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Shows that what parts of a whole lose as it decays adds up to what it loses, and so
// what is left of them to what is left of it, class by class (derived: shares of each
// class are the same).
func TestPartsDecayAsTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := richParcel(t)
		c := DefaultChemistry()
		c.Retained = rapid.Float64Range(0, 1).Draw(t, "retained")
		was := p.Fine
		part := func(name string, of float64) float64 { return of * rapid.Float64Range(0, 1).Draw(t, name) }
		mine := Solids{Rapidly: part("rapidly", was.Rapidly), Readily: part("readily", was.Readily), Slowly: part("slowly", was.Slowly),
			Carbon: was.Carbon, Nitrogen: was.Nitrogen}
		rest := was.Minus(mine)
		rest.Carbon, rest.Nitrogen = was.Carbon, was.Nitrogen

		e := p.Oxidise(Oxidation{FineRapidly: part("burnt rapidly", was.Rapidly), FineReadily: part("burnt readily", was.Readily),
			FineSlowly: part("burnt slowly", was.Slowly)}, &c)
		lost := mine.DecayAs(&was, &p.Fine, &c) + rest.DecayAs(&was, &p.Fine, &c)
		scale := was.Volatile() + 1
		if math.Abs(lost-e.Volatile) > 1e-9*scale {
			t.Fatalf("the parts lose %g kg, the whole %g", lost, e.Volatile)
		}
		for _, x := range []struct{ parts, whole float64 }{
			{mine.Rapidly + rest.Rapidly, p.Fine.Rapidly}, {mine.Readily + rest.Readily, p.Fine.Readily},
			{mine.Slowly + rest.Slowly, p.Fine.Slowly}, {mine.Volatile() + rest.Volatile(), p.Fine.Volatile()},
		} {
			if math.Abs(x.parts-x.whole) > 1e-9*scale {
				t.Fatalf("%g kg left of the parts, %g of the whole", x.parts, x.whole)
			}
		}
	})
}
