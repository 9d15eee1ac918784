package plant

import (
	"context"
	"testing"

	"loamcast/sim"
	"loamcast/sim/random"
)

// start is the begin of a load: the cake that was held, and what the load needed,
// kg dry; and whether chips came back or were delivered at that instant.
type start struct {
	held, need float64
	otherChips bool
}

// starts runs a model and returns how its loads began, and what it recorded.
func starts(t *testing.T, m Model) (all []start, rec *Record) {
	t.Helper()
	p := plantOf(t, m)
	k := sim.NewKernel(p.Begin(), 0)
	defer k.Close()
	s := newState(p, k, 0, random.Key{Seed: 1})
	begun, chipsAt := uint64(0), sim.Time(-1)
	s.paths = s.books.paths()
	s.trace = func(mv Movement) {
		if mv.Path.To == "chips" {
			chipsAt = mv.At
		}
		if mv.Path.Flow != CakeMixed || mv.Load == begun {
			return
		}
		begun = mv.Load
		took := mv.Amount.Fixed + mv.Amount.Volatile
		all = append(all, start{held: s.holding.parcel.Dry() + took, need: s.Holding.StartWith * s.loading.plan.cakeForLoad(), otherChips: chipsAt == mv.At})
	}
	k.AtPriority(0, sim.Early, "day", s.day)
	if err := k.Run(context.Background(), sim.Time(k.Clock().SecondOf(p.Start.AddYears(p.Years)))); err != nil {
		t.Fatal(err)
	}
	rec, err := s.finish()
	if err != nil {
		t.Fatal(err)
	}
	return all, rec
}

// A load begins when the cake is held that this load needs, not that which the load
// before took: while the chips on hand change, from fresh ones to the mixture that
// comes round and with the weather, the need changes from load to load. Nobody has to
// be waited for and nothing is short, so that a load that begins with more than it
// needs has begun late, unless other chips came at this instant, which lower the need
// then. By the plan of the load before, three in ten began late, with up to 18 %
// too much.
func TestLoadsBeginWithWhatTheyNeed(t *testing.T) {
	m := model()
	m.WarmUp, m.Vessels.Installed = 0, 100
	m.Feed.Base = 250
	m.Chips.Moisture = [12]float64{.5, .48, .44, .4, .36, .32, .3, .32, .36, .4, .45, .5}
	all, rec := starts(t, m)
	if len(all) < 80 {
		t.Fatalf("%d loads", len(all))
	}
	late, most := 0, 0.0
	for _, s := range all {
		over := s.held/s.need - 1
		if over > 0.001 && !s.otherChips {
			late++
			most = max(most, over)
		}
		if over < -1e-9 {
			t.Errorf("a load began with %.1f kg held, and needed %.1f", s.held, s.need)
		}
	}
	t.Logf("%d of %d loads began with over 0.1 %% too much, at most %.2f %%", late, len(all), 100*most)
	if late > 0 {
		t.Errorf("%d of %d loads began with over 0.1 %% too much, at most %.2f %%", late, len(all), 100*most)
	}
	if w := waits(rec, len(rec.Months)); w[NoVessel] > 0 || w[NoChips] > 0 {
		t.Errorf("vessels or chips were short: %v", w)
	}
}

// A vessel is in use from its first batch on: while the mixer is out of order, or
// the only loader at the screen, an empty vessel stands idle though the cake for a load
// is held. So the vessel-days in use are the sum, over the loads, of the time from the
// first batch until the vessel is back, here without moves: mixing, residence and
// turnaround.
func TestVesselsAreNotInUseBeforeTheirFirstBatch(t *testing.T) {
	m := paper()
	m.Mixer.Failure = Failure{Every: 4 * sim.Day, Repair: 2 * sim.Day}
	m.Holding.Capacity = 1e5
	rec, d := follow(t, m, caseKey)
	if down := total(rec, func(m *Month) float64 { return m.Use[Mixers].Down }); down < 1000 {
		t.Fatalf("the mixer was down for %.0f h only", down)
	}
	end := 365 * 24.0
	want := 0.0
	full := map[uint64]float64{} // when the last batch of a load was discharged, h
	for _, mv := range d.on("mix loaded") {
		full[mv.Load] = hourOf(mv.At)
	}
	stay := residenceHours + m.Vessels.Turnaround.Hours()
	for _, mv := range d.loadsBegun() {
		filled, ok := full[mv.Load]
		if !ok || len(d.on("mix loaded").load(mv.Load)) < 5 {
			filled = end
		}
		want += min(filled+stay, end) - hourOf(mv.At)
	}
	near(t, "vessels in use", rec.Years[0].VesselsMean, want/end, 1e-6)
}
