package plant

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// What a plant does not look for, as it cannot be there, is not there: in random
// facilities, whenever one looks, no load is kept until it is dry once the last of them
// is said to be dry, and no lot is cured before the first is said to be. The date that is
// worked out once a day is that of the clock, and the dry mass held that of what is held.
// Where a vessel is said to be far from being begun, however near the last plan was, a plan
// asks for more cake than there will be by midnight.
func TestNothingIsOverlooked(t *testing.T) {
	maker := newFacilityMaker(t)
	var tried, kept, cured, far int
	rapid.Check(t, func(t *rapid.T) {
		tried++
		p := maker.plant(t)
		k := sim.NewKernel(p.Begin(), 0)
		defer k.Close()
		s := newState(p, k, 0, random.Key{Seed: rapid.Uint64().Draw(t, "seed")})
		every := sim.Duration(rapid.IntRange(int(6*sim.Hour), int(3*sim.Day)).Draw(t, "look every"))
		var look func()
		look = func() {
			now := k.Now()
			if got, want := s.dateNow(), k.Clock().DateOf(int64(now)); got != want {
				t.Fatalf("the date is %v, and said to be %v", want, got)
			}
			if got, want := s.holding.dry, s.holding.parcel.Dry(); got != want {
				t.Fatalf("%g kg dry of cake are held, and said to be %g", want, got)
			}
			since := s.holding.rate * float64(s.holding.synced.Sub(s.holding.booked))
			if got, want := s.holding.dry, s.holding.begun.Dry()+since; math.Abs(got-want) > 1e-9*s.Holding.Capacity {
				t.Fatalf("%g kg dry of cake are held, and %g by what was booked and has come in since", got, want)
			}
			for _, queue := range [][]*load{s.active, s.pad.lots, s.pad.raw} {
				for _, l := range queue {
					if l.drying == 0 || l.ready <= now || l.ready.Add(-l.drying) > now {
						continue
					}
					if kept++; s.dryBy <= now {
						t.Fatalf("load %d is kept at %d until it is dry, and the last is said to be dry by %d", l.number, now, s.dryBy)
					}
				}
			}
			for _, l := range s.pad.lots {
				if l.ready > now {
					continue
				}
				if cured++; s.pad.cured.after(now) {
					t.Fatalf("lot %d is cured at %d, and the first is said to be at %d", l.number, now, s.pad.cured)
				}
			}
			s.syncHolding()
			last := s.next
			s.next.cakeDry = math.Inf(1) // no plan was near
			if s.loading == nil && s.farFromLoad() {
				far++
				held := s.holding.dry + s.holding.rate*float64(s.untilMidnight())
				if plan, ok := s.planNext(); !ok || held >= s.toStart(&plan) {
					t.Fatalf("%g kg dry of cake will be held by midnight, and a load begins with %g", held, s.toStart(&plan))
				}
			}
			s.next = last
			k.After(every, "look", look)
		}
		k.AtPriority(0, sim.Early, "day", s.midnight)
		k.At(0, "look", look)
		if err := k.Run(context.Background(), sim.Time(150*sim.Day)); err != nil {
			t.Fatal(err)
		}
	})
	t.Logf("%d facilities, %d looks at loads kept, %d at lots cured, %d far from a load", tried, kept, cured, far)
	if tried >= 100 && (kept == 0 || cured == 0 || far == 0) { // a short round may have none
		t.Error("nothing to be overlooked")
	}
}

// The working hours within a span are those of its single seconds that are open, for one
// calendar, which is asked for them at once, as for two (expected values counted, in
// steps of a quarter of an hour, at which shifts begin and end).
func TestOpenWithinCounts(t *testing.T) {
	all := newFacilityMaker(t).hours[0]
	quarter := int64(15 * sim.Minute)
	rapid.Check(t, func(t *rapid.T) {
		from := quarter * rapid.Int64Range(0, 40_000).Draw(t, "from")
		to := from + quarter*rapid.Int64Range(0, 1000).Draw(t, "quarters")
		var hours []*calendar.Work
		for range rapid.IntRange(0, 2).Draw(t, "calendars") {
			hours = append(hours, rapid.SampledFrom(all).Draw(t, "hours"))
		}
		want := int64(0)
		for now := from; now < to; now += quarter {
			open := true
			for _, w := range hours {
				open = open && w.IsOpen(now)
			}
			if open {
				want += quarter
			}
		}
		if got := openWithin(sim.Time(from), sim.Time(to), hours...); int64(got) != want {
			t.Fatalf("%d s of work from %d to %d, want %d", got, from, to, want)
		}
	})
}
