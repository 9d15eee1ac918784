package capability

import (
	"context"
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// What is missed with changes that come into force one after another: the hand plant
// brings 620 kg a day in its first year and 40 more each year, and carries 100 a
// vessel. Eight are too few from the sixth year on, of 820 kg. Two more come on the
// first day of the last quarter of the seventh, which has begun to be missed, and last
// through the tenth, of 980; the other two of the file come with the eleventh.
func TestOddsWithChanges(t *testing.T) {
	f := hand(t).File
	start := f.Model.Start
	f.Model.Changes = []plant.Change{{Vessels: 2, Date: start.AddYears(9), Lead: calendar.Span{Months: 12}}}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	st, err := StatesOf(context.Background(), s, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	odds, err := st.Odds(context.Background(), []plant.Change{{Vessels: 2, Date: start.AddYears(6).AddMonths(9)}})
	if err != nil {
		t.Fatal(err)
	}
	all := st.Mix(odds)
	for year, want := range []float64{0, 0, 0, 0, 0, 1, 1, 0, 0, 0, 0, 0} {
		if got := all.Share(year)[0]; math.Abs(got-want) > 1e-9 {
			t.Errorf("year %d: %g of the runs miss, by hand %g", year, got, want)
		}
	}
	again, err := StatesOf(context.Background(), s, Fewest)
	if err != nil || again.findings != st.findings {
		t.Errorf("what is known is sought again (%v)", err)
	}
}

// Changes are told apart by what they do, and not by name, date or order; places that
// come with vessels are no other plant.
func TestDescribe(t *testing.T) {
	day := calendar.Date{Year: 2030, Month: 1, Day: 1}
	a := describe([]plant.Change{{Name: "a", Vessels: 2, Places: 2, Date: day}, {Name: "b", Pad: 5}, {Name: "c", Holding: 7}})
	b := describe([]plant.Change{{Name: "d", Holding: 7, Date: day}, {Name: "e", Vessels: 1, Places: 1}, {Pad: 5}, {Vessels: 1, Places: 1}})
	if a != b {
		t.Errorf("%+v and %+v", a, b)
	}
	if c := describe([]plant.Change{{Vessels: 2, Places: 2}, {Pad: 6}, {Holding: 7}}); c == a {
		t.Errorf("a larger pad is the same as another: %+v", c)
	}
	// Of contracts the last is in force, so that their order counts, and those before do not.
	one, two := plant.Change{Contract: plant.Contract{Number: 1, MostPerMonth: 5}}, plant.Change{Contract: plant.Contract{Number: 2, MostPerMonth: 6}}
	if describe([]plant.Change{one, {Pad: 5}, two}) != describe([]plant.Change{{Pad: 5}, two}) || describe([]plant.Change{one, two}) == describe([]plant.Change{two, one}) {
		t.Error("a contract that another took the place of is told apart, or one in force is not")
	}
}

// What is carried does not depend on what was asked before: a plant with four more vessels
// and thicker cake that is found after a glance at it is the one found at once, and a
// glance afterwards shows what it did before; ten vessels found side by side with twelve
// are those found alone. By hand, 12 vessels carry 1.5 times what 8 do, by a glance too.
func TestStatesWhateverWasAskedBefore(t *testing.T) {
	vessels := func(n int) plant.Change { return plant.Change{Vessels: n, Places: n} }
	both := []plant.Change{{CakeSolids: 0.04}, vessels(4)}
	ten, twelve := []plant.Change{vessels(2)}, []plant.Change{vessels(4)}
	type asked struct{ both, bothAbout, ten, twelveAbout float64 }
	ask := func(glanceFirst bool) (out asked) {
		st, err := StatesOf(t.Context(), hand(t), Fewest)
		if err != nil {
			t.Fatal(err)
		}
		about := func(changes []plant.Change) float64 {
			c, err := st.About(t.Context(), changes)
			if err != nil {
				t.Fatal(err)
			}
			return c.Curve.Load(0.5)
		}
		with := func(changes []plant.Change) float64 {
			c, err := st.With(t.Context(), changes)
			if err != nil {
				t.Fatal(err)
			}
			return c.Curve.Load(0.5)
		}
		if glanceFirst {
			out.bothAbout, out.twelveAbout = about(both), about(twelve)
			out.both, out.ten = with(both), with(ten)
		} else {
			if err := st.Ahead(t.Context(), [][]plant.Change{twelve, both, ten}); err != nil {
				t.Fatal(err)
			}
			out.both, out.ten = with(both), with(ten)
			out.bothAbout, out.twelveAbout = about(both), about(twelve)
		}
		if times := out.twelveAbout / st.Main().Curve.Load(0.5); times < 1.4 || times > 1.6 {
			t.Errorf("by a glance 12 vessels carry %.2f times as much as 8, by hand 1.5", times)
		}
		return out
	}
	if first, then := ask(true), ask(false); first != then {
		t.Errorf("after a glance %+v, at once %+v", first, then)
	}
}

// What changes have more than others is by kind and number, vessels apart; where
// something of the others is left out, it is told.
func TestAdded(t *testing.T) {
	pad, holding := plant.Change{Name: "pad", Pad: 5}, plant.Change{Name: "holding", Holding: 7}
	both := plant.Change{Vessels: 1, Pad: 5}
	for _, c := range []struct {
		less, more []plant.Change
		want       int
		all        bool
	}{
		{nil, []plant.Change{{Vessels: 3}}, 0, true},
		{nil, []plant.Change{holding, pad, holding, {Vessels: 2}}, 3, true},
		{[]plant.Change{pad}, []plant.Change{holding, both, pad}, 2, true},
		{[]plant.Change{pad, {Vessels: 2}}, []plant.Change{holding}, 0, false},
		{[]plant.Change{holding, holding}, []plant.Change{holding}, 0, false},
	} {
		if got, all := added(c.less, c.more); len(got) != c.want || all != c.all {
			t.Errorf("%+v over %+v: %+v, %v", c.more, c.less, got, all)
		}
	}
}

// Beside a plant with thicker cake, another number of vessels is expected in proportion;
// the plant carries more with thicker cake, and with more vessels.
func TestStatesOfOtherKinds(t *testing.T) {
	s := hand(t)
	st, err := StatesOf(context.Background(), s, Fewest)
	if err != nil {
		t.Fatal(err)
	}
	carried := func(changes ...plant.Change) float64 {
		found, err := st.With(context.Background(), changes)
		if err != nil {
			t.Fatal(err)
		}
		return found.Curve.Load(0.5)
	}
	asIs, more := carried(), carried(plant.Change{Vessels: 4, Places: 4})
	if more < 1.4*asIs || more > 1.6*asIs {
		t.Errorf("12 vessels carry %.0f kg/day, 8 carry %.0f", more, asIs)
	}
	thicker, both := carried(plant.Change{CakeSolids: 0.04}), carried(plant.Change{CakeSolids: 0.04}, plant.Change{Vessels: 4})
	if thicker < 1.02*asIs || both < 1.4*thicker || both > 1.6*thicker {
		t.Errorf("with thicker cake 8 vessels carry %.0f kg/day, 12 carry %.0f; as it is %.0f", thicker, both, asIs)
	}
}
