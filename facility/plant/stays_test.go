package plant

import (
	"math"
	"testing"

	"loamcast/sim"
	"loamcast/sim/random"
)

// The stays of every vessel follow each other without a gap until the end of the run,
// each load goes through its phases in order, and the time in use is what the meter of
// the vessels says. Watching changes nothing.
func TestStaysAreTheVessels(t *testing.T) {
	m := noisy(t)
	m.Years, m.WarmUp = 1, 0
	m.Vessels.Service = Maintenance{Every: 90 * sim.Day, Takes: 3 * sim.Day}
	p := plantOf(t, m)
	key := random.Key{Seed: 4}
	ends := map[int]sim.Time{}
	phase := map[uint64]Phase{}
	seen := map[Phase]int{}
	inUse := 0.0
	watched, err := p.RunWatched(t.Context(), key, func(s Stay) {
		if s.From != ends[s.Vessel] || s.To <= s.From {
			t.Fatalf("vessel %d: from %d to %d after %d", s.Vessel, s.From, s.To, ends[s.Vessel])
		}
		ends[s.Vessel] = s.To
		seen[s.Phase]++
		if s.Waits != 0 && s.Phase != FullWaits && s.Phase != DueWaits {
			t.Errorf("phase %d waits for %v", s.Phase, s.Waits)
		}
		if s.Phase >= Filling && s.Phase <= TurnedRound {
			inUse += float64(s.To - s.From)
		}
		if s.Load == 0 {
			return
		}
		if s.Phase < phase[s.Load] {
			t.Errorf("load %d goes from phase %d back to %d", s.Load, phase[s.Load], s.Phase)
		}
		phase[s.Load] = s.Phase
	})
	if err != nil {
		t.Fatal(err)
	}
	plain, err := p.Run(t.Context(), key)
	if err != nil {
		t.Fatal(err)
	}
	if watched.Fingerprint != plain.Fingerprint || watched.Events != plain.Events {
		t.Error("watching changed the run")
	}
	for i := range m.Vessels.InClass(0) {
		if ends[i].Days() != 365 {
			t.Errorf("vessel %d is followed for %g days", i, ends[i].Days())
		}
	}
	for _, s := range plain.Stations {
		if s.Name == "vessels" && math.Abs(inUse/(s.MeanLevel*s.Seconds)-1) > 1e-9 {
			t.Errorf("vessels are in use for %g s by their stays, %g s by their meter", inUse, s.MeanLevel*s.Seconds)
		}
	}
	for _, want := range []Phase{StandsEmpty, Filling, OnAir, DueWaits, TurnedRound, Serviced} {
		if seen[want] == 0 {
			t.Errorf("no vessel is ever in phase %d", want)
		}
	}
}
