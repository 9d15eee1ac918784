package plant

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/random"
)

// holding returns what is in the mixer that holds a mass.
func (m *mixers) holding(c material.Components) *material.Parcel {
	for i := range m.units {
		if u := &m.units[i]; u.busy && u.content.Components() == c {
			return &u.content
		}
	}
	return &material.Parcel{}
}

// In random facilities, whatever moves: no mixer and no screen has more than one batch or
// lot, and no more work than there are units; no load has more batches than its plan, and
// none is in a mixer whose load is closed; and no cake and no chips are taken that are not
// there.
func TestSeveralMixersAndScreens(t *testing.T) {
	maker := newFacilityMaker(t)
	mixed, screened := 0, 0 // instants with several at a time
	rapid.Check(t, func(rt *rapid.T) {
		p := maker.plant(rt)
		k := sim.NewKernel(p.Begin(), 0)
		defer k.Close()
		s := newState(p, k, 0, random.Key{Seed: rapid.Uint64().Draw(rt, "seed")})
		s.paths = s.books.paths()
		s.trace = func(mv Movement) {
			batches, lots := 0, 0
			for i := range s.mixers.units {
				if s.mixers.units[i].busy {
					batches++
				}
			}
			for i := range s.screens.units {
				if s.screens.units[i].busy {
					lots++
				}
			}
			if batches > 1 {
				mixed++
			}
			if lots > 1 {
				screened++
			}
			// A batch or lot is counted at the end of the move that empties its unit.
			switch l := s.loading; {
			case s.mixers.inHand != batches || s.screens.inHand != lots && mv.Path.Flow != LotScreened:
				rt.Fatalf("%s: %d batches and %d lots in hand, %d and %d in the units", mv.Path.Name, s.mixers.inHand, s.screens.inHand, batches, lots)
			case batches > s.Mixer.Units() || lots > s.Screening.Units():
				rt.Fatalf("%d batches in %d mixers, %d lots on %d screens", batches, s.Mixer.Units(), lots, s.Screening.Units())
			case l == nil && batches > 0:
				rt.Fatalf("%s: %d batches of no load", mv.Path.Name, batches)
			case l != nil && l.batches+batches > l.plan.batches:
				rt.Fatalf("%s: %d batches in the vessel and %d in mixers, %d planned", mv.Path.Name, l.batches, batches, l.plan.batches)
			case s.holding.parcel.Dry() < -1e-6 || s.chips.fresh.volume < -1e-6 || s.chips.recovered.volume < -1e-6:
				rt.Fatalf("%s: %g kg of cake, %g and %g m3 of chips are left", mv.Path.Name, s.holding.parcel.Dry(), s.chips.fresh.volume, s.chips.recovered.volume)
			}
		}
		k.AtPriority(0, sim.Early, "day", s.midnight)
		if err := k.Run(context.Background(), sim.Time(k.Clock().SecondOf(p.Start.AddYears(p.Years)))); err != nil {
			rt.Fatal(err)
		}
	})
	t.Logf("%d moves with several batches in hand, %d with several lots", mixed, screened)
}
