package mix

import (
	"testing"

	"pgregory.net/rapid"
)

// Shows by hand that a batch takes the least of a material that it is to take, more where a
// target asks for more, and misses a target rather than take less: 800 kg of chips bring
// cake of 20 % to 40 % solids, and 1,500 kg bring it to 47 %.
func TestLeastIsTaken(t *testing.T) {
	for _, c := range []struct {
		least, most, chips float64
		status             Status
	}{
		{0, 0, 800, Met},
		{500, 0, 800, Met},
		{1500, 0, 1500, Met},
		{1500, 0.45, 1500, NearestMiss},
	} {
		d := two(Targets{Solids: Window{Low: 0.40, High: c.most}})
		d.Materials[1].Least, d.Materials[1].Available = c.least, 5000
		r := mustSolve(t, d)
		near(t, "chips, kg", r.Mass[1], c.chips, 0.01)
		if r.Status != c.status {
			t.Errorf("at least %g kg: %v, misses %+v", c.least, r.Status, r.Misses)
		}
	}
}

// Shows that to take at least so much of a material costs no less, that it is taken, and
// that it changes nothing where the best mix takes more by itself.
func TestLeastCostsNoLess(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, r := anyDesign(t)
		d.Objective = LeastCost
		free, err := d.Solve()
		if err != nil {
			t.Fatal(err)
		}
		i := 1 + r.IntN(len(d.Materials)-1)
		bound := d
		bound.Materials = append([]Material(nil), d.Materials...)
		m := &bound.Materials[i]
		m.Least = min(m.Available, 2*d.Cake) * r.Float64()
		got, err := bound.Solve()
		if err != nil {
			t.Fatal(err)
		}
		scale := newProblem(d).money * d.Cake
		switch {
		case got.Mass[i] < m.Least*(1-tolerance)-trace*d.Cake:
			t.Fatalf("%g kg of %s, at least %g", got.Mass[i], m.Name, m.Least)
		case got.Status == Met && free.Status != Met:
			t.Fatalf("with at least %g kg of %s all targets are met, without it misses %+v", m.Least, m.Name, free.Misses)
		case got.Status == Met && got.Cost < free.Cost-localCost*scale:
			t.Fatalf("with at least %g kg of %s it costs %g, without %g", m.Least, m.Name, got.Cost, free.Cost)
		case free.Status == Met && free.Mass[i] >= m.Least && got.Cost > free.Cost+localCost*scale:
			t.Fatalf("at least %g kg of %s, of which %g are best, cost %g in place of %g", m.Least, m.Name, free.Mass[i], got.Cost, free.Cost)
		}
	})
}
