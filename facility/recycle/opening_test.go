package recycle

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/sim"
)

// A pile is found as it was measured, by volume or by mass, and where nothing was
// measured as the steady load is after as long. Its cake is what went into so much of a
// load: the ash of a lot, which nothing touches, tells how much.
func TestLyingIsAsMeasured(t *testing.T) {
	m := carried()
	s, err := New(&m, 3).Steady(t.Context(), AsRun(&m, 3))
	if err != nil {
		t.Fatal(err)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
			t.Errorf("%s: %.12g, want %.12g", what, got, want)
		}
	}
	warmth := 48.0
	const age = 20 * sim.Day
	for _, first := range []bool{false, true} {
		m.Screening.First = first
		l := s.Lying(&m, Pile{Age: age, Volume: 40, Moisture: 0.48, Warmth: &warmth})
		near("volume", m.Bulk.Volume(l.Lot), 40)
		near("moisture", l.Lot.Moisture(), 0.48)
		near("temperature", l.Warmth, 48)
		wet := s.Lying(&m, Pile{Age: age, Wet: 9000, Moisture: 0.48})
		near("wet mass", wet.Lot.Total(), 9000)
		near("cake by dry mass", wet.CakeDry/wet.Lot.Dry(), l.CakeDry/l.Lot.Dry())
		if l.CakeLeft.Dry() >= l.CakeDry || l.CakeLeft.Fixed <= 0 {
			t.Errorf("of %g kg of cake %g are left", l.CakeDry, l.CakeLeft.Dry())
		}
	}
	m.Screening.First = false
	whole := s.Lying(&m, Pile{Age: age, Wet: 1000})
	near("cake by ash", whole.CakeDry/whole.Lot.Fixed(), s.Parts.Cake.Dry()/s.Load.Fixed())
	near("chips by ash", whole.Chips/whole.Lot.Fixed(), (s.Volumes.Fresh+s.Volumes.Recovered)/s.Load.Fixed())
	near("readily degradable by ash", whole.Readily/whole.Lot.Fixed(), readily(s.Load)/s.Load.Fixed())
	fresh, old := s.Lying(&m, Pile{Wet: 1000}), s.Lying(&m, Pile{Age: 4000 * sim.Day, Wet: 1000})
	end := s.Journey.Curing.Final()
	near("moisture of a new one", fresh.Lot.Moisture(), s.Journey.Curing.Samples[0].Parcel.Moisture())
	near("moisture of an old one", old.Lot.Moisture(), end.Parcel.Moisture())
	near("temperature of an old one", old.Warmth, end.Temperature)
	if !(old.Lot.Degradable()/old.Lot.Fixed() < whole.Lot.Degradable()/whole.Lot.Fixed()) {
		t.Error("an old lot holds as much that degrades as a younger one")
	}
}

// A load of half as much cake is half of the steady load.
func TestBegunIsOfTheSteadyMix(t *testing.T) {
	m := carried()
	s, err := New(&m, 3).Steady(t.Context(), AsRun(&m, 3))
	if err != nil {
		t.Fatal(err)
	}
	b := s.Begun(5*sim.Day, s.Parts.Cake.Dry()/2)
	if math.Abs(b.Load.Total()/s.Load.Total()-0.5) > 1e-12 || math.Abs(b.Cake.Total()/s.Parts.Cake.Total()-0.5) > 1e-12 || b.Age != 5*sim.Day ||
		math.Abs(b.Chips/(s.Volumes.Fresh+s.Volumes.Recovered)-0.5) > 1e-12 {
		t.Errorf("%+v", b)
	}
	m.Opening = &plant.Opening{Vessels: []plant.Begun{b}}
	m.WarmUp = 0
	if err := m.Validate(); err != nil {
		t.Error(err)
	}
}
