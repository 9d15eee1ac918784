package recycle

import (
	"math"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/sim"
)

// swinging returns a plant whose loads swing in February: those that leave after nine
// days give back chips with which the next just misses what vessel and pad must show
// together, and stays until the vessel alone has shown it; its drier chips let the one
// after that leave after nine days again. Found by chance among 277.
func swinging() Loop {
	m := constant()
	active, pile := *m.Active, *m.Pile
	m.Active, m.Pile = &active, &pile
	m.Feed.CakeSolids, m.Recipe.ChipsPerCake = twelve(0.1606383155800974), 1.9177568886950738
	m.Chips.Moisture = twelve(0.47138053511032146)
	m.Screening.Settings.Recovery = 0.8084845623402276
	warm := process.VectorAttractionReduction()
	warm.Temperature, warm.Mean, warm.Hours = 37.80201484615034, 44.367861335577125, 206.82736069237296
	active.Criteria = []process.Criterion{warm}
	pile.Criteria = active.Criteria
	active.Program = []process.Segment{
		{Name: "hot", Hours: 185.65902407824936, Setpoint: 61.028991371015685, MinFlow: 5.615561439630614},
		{Name: "warm", Hours: 1200, Setpoint: 48.5094992432871, MinFlow: 19.661030324619677},
	}
	pile.Program = []process.Segment{{Name: "cure", Hours: 720, Setpoint: 39.29222342088323, MinFlow: 3.588136820729301}}
	m.Vessels.Residence, m.Vessels.Minimum, m.Vessels.Maximum = 9*sim.Day, 9*sim.Day, 40*sim.Day
	m.Curing.Time, m.Curing.Longest = 30*sim.Day, 30*sim.Day
	return New(&m, time.February)
}

// A loop that would go to and fro for ever ends soon, with the longer of both stays and
// with both of them named.
func TestSwingingLoopEndsAndIsNamed(t *testing.T) {
	l := swinging()
	s, err := l.Steady(t.Context(), AsRun(l.Model, l.Month))
	if err != nil {
		t.Fatal(err)
	}
	w := s.StaySwing
	if !w.Some() || w.Shortest != 9*24 || w.Longest < 10*24 || s.Journey.Stay() < w.Longest-1 || s.Cycles > 100 {
		t.Errorf("it swings between %.1f and %.1f h, and after %d loads stays %.1f", w.Shortest, w.Longest, s.Cycles, s.Journey.Stay())
	}
	if s.CuringSwing.Some() {
		t.Errorf("the pad swings too: %+v", s.CuringSwing)
	}
	still := constant()
	if s, err = New(&still, time.July).Steady(t.Context(), AsRun(&still, time.July)); err != nil || s.StaySwing.Some() || s.CuringSwing.Some() {
		t.Errorf("a plant that comes to rest swings: %+v, %+v, %v", s.StaySwing, s.CuringSwing, err)
	}
}

// Times swing if they turn again and again by more than criteria are judged by; those
// that grow, come to rest or tremble do not.
func TestSwingOfTimes(t *testing.T) {
	for _, c := range []struct {
		name  string
		hours []float64
		want  Swing
	}{
		{"none", nil, Swing{}},
		{"at rest", []float64{240, 240, 240, 240, 240, 240}, Swing{}},
		{"to and fro", []float64{240, 300, 240, 300, 240, 300}, Swing{240, 300}},
		{"two short, one long", []float64{240, 240, 300, 240, 240, 300, 240, 240}, Swing{240, 300}},
		{"growing", []float64{240, 250, 260, 270, 280, 290}, Swing{}},
		{"coming to rest", []float64{240, 300, 280, 280, 280, 280}, Swing{}},
		{"trembling", []float64{240, 240.5, 240, 240.5, 240, 240.5}, Swing{}},
	} {
		if got := swingOf(c.hours); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// Lots that are dry enough to get water only in turn, as the chips of one that gets it
// make the next wetter, come to rest as lots that get it, in bounded time, and are named.
func TestWaterInTurn(t *testing.T) {
	m := constant()
	m.Feed.CakeSolids = twelve(0.26)
	l := New(&m, time.July)
	plain, err := l.Steady(t.Context(), AsRun(&m, time.July))
	if err != nil {
		t.Fatal(err)
	}
	out := plain.Journey.Vessel.Final().Parcel
	for _, c := range []struct {
		off    float64 // of the moisture below which there is water, from what leaves dry
		inTurn bool
	}{{-0.01, false}, {0.012, true}, {0.05, false}} {
		m.Curing.Rewet = plant.Rewet{Below: out.Moisture() + c.off, UpTo: out.Moisture() + 0.06}
		s, err := l.Steady(t.Context(), AsRun(&m, time.July))
		if err != nil {
			t.Fatal(err)
		}
		if want := c.off > 0; s.WateredInTurn != c.inTurn || s.Journey.Watered() != want || s.Cycles > 200 {
			t.Errorf("below %+.3f: in turn %v, water %v, %d loads", c.off, s.WateredInTurn, s.Journey.Watered(), s.Cycles)
		}
		if lot := s.Journey.Curing.Initial; s.Journey.Watered() && math.Abs(lot.Moisture()-m.Curing.Rewet.UpTo) > 1e-9 {
			t.Errorf("below %+.3f: a lot of %.4f moisture", c.off, lot.Moisture())
		}
	}
}
