package screening

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
)

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %.10g, want %.10g ± %g", what, got, want, tol)
	}
}

// compost is a cured mix of 1,000 kg dry at the given moisture.
func compost(moisture float64) material.Parcel {
	return material.Parcel{
		Water:  1000 * moisture / (1 - moisture),
		Fine:   material.Solids{Fixed: 150, Slowly: 60, Refractory: 190, Carbon: 130, Nitrogen: 14},
		Coarse: material.Solids{Fixed: 30, Slowly: 90, Refractory: 480, Carbon: 310, Nitrogen: 4},
	}
}

func anySettings(t *rapid.T) Settings {
	draw := func(name string, low, high float64) float64 { return rapid.Float64Range(low, high).Draw(t, name) }
	return Settings{
		Opening: draw("opening", 0.004, 0.02), Recovery: draw("recovery", 0, 1),
		MoistureLimit: draw("limit", 0, 1), RecoveryFall: draw("fall", 0, 20),
		CarryOver: draw("carry-over", 0, 3), CarryOverRise: draw("rise", 0, 20),
		Rejects: draw("rejects", 0, 1), Attrition: draw("attrition", 0, 1),
		MoistureSplit: draw("split", 0.1, 3), Capacity: draw("capacity", 1, 200),
		CapacityImpact: draw("impact", 0, 20),
	}
}

func each(p material.Parcel) []float64 {
	v := []float64{p.Water}
	for _, s := range []material.Solids{p.Fine, p.Coarse} {
		v = append(v, s.Fixed, s.Readily, s.Slowly, s.Refractory, s.Carbon, s.Nitrogen)
	}
	return v
}

// Shows that the three outputs add up to the input after wear in every
// component, and that none is negative, for any settings and any parcel.
func TestSplitAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySettings(t)
		if err := s.Validate(); err != nil {
			t.Fatal(err)
		}
		draw := func(name string) float64 { return rapid.Float64Range(0, 500).Draw(t, name) }
		in := material.Parcel{
			Water:  draw("water"),
			Fine:   material.Solids{Fixed: draw("ff"), Readily: draw("fr"), Slowly: draw("fs"), Nitrogen: draw("fn")},
			Coarse: material.Solids{Fixed: draw("cf"), Slowly: draw("cs"), Refractory: draw("cr"), Carbon: draw("cc")},
		}
		split := Screen(in, s)
		in.Wear(s.Attrition)
		sum := each(split.Product.Plus(split.Recovered).Plus(split.Rejects))
		for i, want := range each(in) {
			if math.Abs(sum[i]-want) > 1e-12*in.Total() {
				t.Fatalf("component %d: outputs %g, input %g", i, sum[i], want)
			}
		}
		for _, p := range []material.Parcel{split.Product, split.Recovered, split.Rejects} {
			for i, v := range each(p) {
				if v < -1e-12*in.Total() {
					t.Fatalf("component %d of an output is %g", i, v)
				}
			}
		}
	})
}

// Shows a split worked by hand: 600 kg coarse less 5 % wear, 75 % recovered,
// 0.2 kg fine with each kg, 10 % of the overs rejected, water with the solids.
func TestSplitByHand(t *testing.T) {
	s := DefaultSettings(0.0095)
	near(t, "recovery halfway between 6 and 13 mm", s.Recovery, 0.75, 1e-12)
	s.CarryOver, s.Rejects, s.Attrition = 0.2, 0.1, 0.05
	split := Screen(compost(0.40), s)
	coarse := 600 * 0.95 * 0.75
	near(t, "recovered coarse, kg", split.Recovered.Coarse.Dry(), 0.9*coarse, 1e-9)
	near(t, "recovered fine, kg", split.Recovered.Fine.Dry(), 0.9*0.2*coarse, 1e-9)
	near(t, "rejects, kg", split.Rejects.Dry(), 0.1*1.2*coarse, 1e-9)
	near(t, "product, kg", split.Product.Dry(), 1000-1.2*coarse, 1e-9)
	near(t, "product moisture", split.Product.Moisture(), 0.40, 1e-12)

	s.MoistureSplit = 0.5 // chips half as wet per kg dry
	split = Screen(compost(0.40), s)
	water := 1000 * 0.40 / 0.60
	worn := 600 * 0.95
	want := water * (0.2*coarse + 0.5*coarse) / ((1000 - worn) + 0.5*worn)
	near(t, "water of the overs, kg", split.Recovered.Water+split.Rejects.Water, want, 1e-9)
}

// Shows that recovered coarse matter keeps the composition it had.
func TestRecoveredCoarseKeepsItsComposition(t *testing.T) {
	in := compost(0.45)
	got := Screen(in, DefaultSettings(0.010)).Recovered.Coarse
	f := got.Dry() / in.Coarse.Dry()
	near(t, "slowly degradable", got.Slowly, f*in.Coarse.Slowly, 1e-9)
	near(t, "nitrogen", got.Nitrogen, f*in.Coarse.Nitrogen, 1e-9)
	near(t, "ash", got.Fixed, f*in.Coarse.Fixed, 1e-9)
}

// Shows that up to the moisture limit nothing changes, and that above it
// recovery and throughput fall and carry-over rises.
func TestMoistureLimit(t *testing.T) {
	s := DefaultSettings(0.010)
	if s.RecoveryAt(0.30) != s.Recovery || s.RecoveryAt(0.50) != s.Recovery || s.Throughput(0.50) != s.Capacity {
		t.Error("the limit acts below itself")
	}
	last := Screen(compost(0.50), s)
	pace := s.Throughput(0.50)
	for _, m := range []float64{0.52, 0.55, 0.60, 0.65} {
		split := Screen(compost(m), s)
		if split.Recovered.Coarse.Dry() >= last.Recovered.Coarse.Dry() {
			t.Errorf("at %g moisture recovery does not fall", m)
		}
		if split.Recovered.Fine.Dry()/split.Recovered.Coarse.Dry() <= last.Recovered.Fine.Dry()/last.Recovered.Coarse.Dry() {
			t.Errorf("at %g moisture carry-over does not rise", m)
		}
		if now := s.Throughput(m); now >= pace || now <= 0 {
			t.Errorf("at %g moisture throughput %g after %g", m, now, pace)
		}
		last, pace = split, s.Throughput(m)
	}
	near(t, "recovery at 55 %", s.RecoveryAt(0.55), s.Recovery*(1-4*0.05), 1e-12)
	mud := Screen(compost(0.80), s)
	near(t, "nothing recovered from mud", mud.Recovered.Total(), 0, 0)
}

// Shows that defaults lie in the range of practice: 65–85 % of the coarse for
// openings of 6–13 mm (memory, practice), falling with the opening.
func TestDefaultRecovery(t *testing.T) {
	for _, row := range []struct{ opening, recovery float64 }{
		{0.004, 0.85}, {0.006, 0.85}, {0.013, 0.65}, {0.020, 0.65},
	} {
		s := DefaultSettings(row.opening)
		near(t, "recovery", s.Recovery, row.recovery, 1e-12)
		if err := s.Validate(); err != nil {
			t.Error(err)
		}
	}
}

// Shows that settings that create matter or mean nothing are refused by name.
func TestValidate(t *testing.T) {
	for _, row := range []struct {
		change func(s *Settings)
		want   string
	}{
		{func(s *Settings) { s.Recovery = 1.2 }, "recovery 120 %"},
		{func(s *Settings) { s.Rejects = -0.1 }, "rejects -10 %"},
		{func(s *Settings) { s.Attrition = math.NaN() }, "attrition"},
		{func(s *Settings) { s.MoistureLimit = 50 }, "moisture limit"},
		{func(s *Settings) { s.CarryOver = -1 }, "carry-over"},
		{func(s *Settings) { s.RecoveryFall = math.Inf(1) }, "fall of recovery"},
		{func(s *Settings) { s.MoistureSplit = 0 }, "moisture split"},
		{func(s *Settings) { s.Capacity = 0 }, "capacity"},
		{func(s *Settings) { s.Opening = 0 }, "opening"},
	} {
		s := DefaultSettings(0.010)
		row.change(&s)
		if err := s.Validate(); err == nil || !strings.Contains(err.Error(), row.want) {
			t.Errorf("got %v, want an error with %q", err, row.want)
		}
	}
}

// What comes back of the coarse matter is what the screen recovers less the rejects;
// of nothing, nothing.
func TestCoarseRecovery(t *testing.T) {
	for _, moisture := range []float64{0.4, 0.55} {
		s := DefaultSettings(0.0095)
		in := compost(moisture)
		want := s.RecoveryAt(in.Moisture()) * (1 - s.Rejects)
		if got := Screen(in, s).CoarseRecovery(); math.Abs(got-want) > 1e-12 {
			t.Errorf("at %g: %g, want %g", moisture, got, want)
		}
	}
	if got := (Split{}).CoarseRecovery(); got != 0 {
		t.Errorf("of nothing: %g", got)
	}
}
