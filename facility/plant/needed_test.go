package plant

import (
	"context"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim"
	"loamcast/sim/random"
)

// Vessels needed are those in use at once in the same plant with a vessel and a place
// for every load, under the same random numbers. In random facilities without
// numbered places, maintenance or early release, the two runs are one before the first
// year in which more are needed than it begins with. In that year, where vessels are
// added, and after it more may be in use than needed: they work off what waited
// (TestMoreInUseThanNeeded).
func TestNeededIsInUseBeforeVesselsAreShort(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	maker := newFacilityMaker(t)
	same, short := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := *maker.plant(t)
		p.Yard.Places, p.Vessels.Service, p.Vessels.Early, p.Vessels.Unlimited = 0, Maintenance{}, false, false
		p.Outages = nil // a vessel that is out is not there, and is not short
		p.WarmUp = 0    // nothing is hidden
		key := random.Key{Seed: rapid.Uint64().Draw(t, "seed")}
		run := func(p *Plant) *Record {
			rec, err := p.Run(context.Background(), key)
			if err != nil {
				t.Fatal(err)
			}
			return rec
		}
		rec, free := run(&p), run(p.Unlimited())
		installed := p.Vessels.Installed // at the beginning of the year
		for y := range rec.Years {
			use, need := rec.Years[y], free.Years[y]
			if need.VesselsPeak > installed {
				short++
				return
			}
			installed = use.Installed
			if use.VesselsPeak != need.VesselsPeak || use.VesselsMean != need.VesselsMean {
				t.Fatalf("year %d: %d vessels in use, %.9g in the mean, and %d, %.9g needed", y,
					use.VesselsPeak, use.VesselsMean, need.VesselsPeak, need.VesselsMean)
			}
			same++
		}
	})
	t.Logf("%d years in which no vessel is short, %d facilities with one that is", same, short)
	if same == 0 || short == 0 {
		t.Error("nothing was compared")
	}
}

// More vessels are in use than needed while they work off what waited. Four vessels
// that stay 240 h and are turned round in 48 h; cake comes at 100 kg/h in January, and
// from February on at 10 kg/h, a load in 200 h.
//
//	needed       by April a load has a batch every 40 h and is full 160.5 h after its
//	             first, and its vessel is back 288 h later: 448.5 h for a load that
//	             begins every 200 h, 2.24 in the mean and 3 at most
//	in use       a load is begun as a vessel is back, 290.5 h after the one before,
//	             so that four take 8,000 kg in 12 days: of the 74,400 kg of January
//	             they have by the end of April less than 11 rounds, 88,000 kg, of
//	             what is 74,400 and 2,140 · 10 kg by then: no vessel has been idle
func TestMoreInUseThanNeeded(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 4, 48*sim.Hour
	m.Holding.Capacity = 1e6
	m.Feed.Month = repeat12(0.1)
	m.Feed.Month[0] = 1
	m.Feed.Base *= (1 + 11*0.1) / 12 // the mean of the year
	p := plantOf(t, m)
	run := func(p *Plant) *Record {
		rec, err := p.Run(context.Background(), caseKey)
		if err != nil {
			t.Fatal(err)
		}
		return rec
	}
	use, need := run(p).Months[3], run(p.Unlimited()).Months[3]
	near(t, "cake of a day of April", use.Feed.Dry/30, 240, 5)
	same(t, "in use in the mean of April", use.Vessels.Mean, 4)
	same(t, "needed in April at most", need.Vessels.Peak, 3)
	near(t, "needed in April in the mean", need.Vessels.Mean, 448.5/200, 0.02) // April begins and ends within a load
}
