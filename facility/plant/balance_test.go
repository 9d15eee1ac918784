package plant

import (
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
	"loamcast/sim/random"
)

// In random valid facilities the ledger closes to 1e-9 of throughput for every
// component, store and year, and the causes sum to the time waited. The ledger
// itself fails a run that breaks the bound; the test also looks at the residual, that
// nothing is used for more than all of its hours, nor more left untreated than there
// was, and that all that can happen in a plant did happen in some.
func TestLedgerClosesAndCausesSumInRandomFacilities(t *testing.T) {
	maker := newFacilityMaker(t)
	var tried, summed int
	var worst float64
	seen := make([]int, len(happenings))
	var waited [numCauses]int
	rapid.Check(t, func(t *rapid.T) {
		p := maker.plant(t)
		rec, err := p.Run(context.Background(), random.Key{Seed: rapid.Uint64().Draw(t, "seed")})
		if err != nil {
			t.Fatal(err)
		}
		checkBalances(t, rec)
		checkUse(t, p, rec)
		little(t, rec)
		checkContracts(t, p, rec)
		if p.WarmUp == 0 { // the months leave out what waited before
			checkCauses(t, rec)
			checkChips(t, p, rec)
			summed++
		}
		tried, worst = tried+1, max(worst, rec.Worst)
		for i, h := range happenings {
			if h.in(&p.Model, rec) {
				seen[i]++
			}
		}
		for c, v := range waits(rec, len(rec.Months)) {
			if v > 0 {
				waited[c]++
			}
		}
	})
	t.Logf("%d facilities, largest residual %.2g of throughput; causes summed in %d", tried, worst, summed)
	met := func(n int, what string) {
		t.Logf("%4d with %s", n, what)
		if n == 0 && tried >= 200 {
			t.Errorf("no facility with %s", what)
		}
	}
	for i, h := range happenings {
		met(seen[i], h.what)
	}
	for c, n := range waited {
		met(n, "solids that wait for "+Cause(c).String())
	}
}

func checkBalances(t *rapid.T, rec *Record) {
	if !(rec.Worst <= material.Tolerance) {
		t.Fatalf("residual %.3g at %s", rec.Worst, rec.WorstAt)
	}
	for _, y := range rec.Years {
		for i, in := range y.Balance.In.Each() {
			if in <= 0 {
				t.Fatalf("no %s came in", material.ComponentNames[i])
			}
		}
	}
}

func checkCauses(t *rapid.T, rec *Record) {
	if !allCharged(rec) {
		t.Fatalf("causes sum to %.15g kg·d, %.15g waited", waits(rec, len(rec.Months)).Total(), rec.Waited)
	}
	for _, month := range rec.Months {
		for c, v := range month.Waits {
			if !(v >= 0) {
				t.Fatalf("%g kg·d waited for %s in %v", v, Cause(c), month.Month)
			}
		}
	}
}

// checkChips checks that chips are lost and not gained, but from amendments of which some
// comes back as chips, and that those mixed and neither lost nor recovered are in
// process: not fewer than none.
func checkChips(t *rapid.T, p *Plant, rec *Record) {
	on := 0.0
	if o := p.Opening; o != nil {
		for _, b := range o.Vessels {
			on += b.Chips
		}
		for _, l := range o.Pad {
			on += l.Chips
		}
	}
	for i := range rec.Months {
		c := &rec.Months[i].Chips
		on += c.Used - c.Recovered - c.Lost
		if len(p.Amendments) == 0 && c.Lost < -1e-9 {
			t.Errorf("month %d: %g m3 of chips are lost", i, c.Lost)
		}
		if on < -1e-6 {
			t.Errorf("month %d: %g m3 of chips are in process", i, on)
		}
	}
}

// happenings are what random facilities must bring about, so that the properties
// that hold in them mean something.
var happenings = []struct {
	what string
	in   func(*Model, *Record) bool
}{
	{"product", monthly(func(m *Month) float64 { return m.Product.Dry })},
	{"diverted cake", monthly(func(m *Month) float64 { return m.Holding.DivertedDry })},
	{"cake hauled by contract", monthly(func(m *Month) float64 { return m.Holding.ContractDry })},
	{"the limit of a contract used up", usedUp},
	{"cake hauled by contract and diverted", func(_ *Model, r *Record) bool {
		return total(r, func(m *Month) float64 { return min(m.Holding.ContractDry, m.Holding.DivertedDry) }) > 0
	}},
	{"cake hauled by several contracts", func(_ *Model, r *Record) bool { return len(hauledBy(r)) > 1 }},
	{"failed loads", monthly(func(m *Month) float64 { return m.Release.Failed })},
	{"early releases", monthly(func(m *Month) float64 { return m.Release.Early })},
	{"part-filled vessels", monthly(func(m *Month) float64 { return m.Loads.PartFilled })},
	{"unstable lots", monthly(func(m *Month) float64 { return m.Curing.Unstable })},
	{"lots that got water", monthly(func(m *Month) float64 { return m.Curing.Water })},
	{"chips short", monthly(func(m *Month) float64 { return m.Chips.HoursShort })},
	{"a full product store", monthly(func(m *Month) float64 { return m.Product.HoursFull })},
	{"a product store too empty", monthly(func(m *Month) float64 { return m.Product.Shortage })},
	{"biofilter media", monthly(func(m *Month) float64 { return m.Chips.Biofilter })},
	{"feedstocks", monthly(func(m *Month) float64 { return m.Feed.FeedstockDry })},
	{"vessels moved", monthly(func(m *Month) float64 { return m.Vessels.Moves })},
	{"more air asked for than there is", monthly(func(m *Month) float64 { return m.Air.HoursOver })},
	{"mixers down", monthly(func(m *Month) float64 { return m.Use[Mixers].Down })},
	{"screens down", monthly(func(m *Month) float64 { return m.Use[Screens].Down })},
	{"trucks down", monthly(func(m *Month) float64 { return m.Use[Trucks].Down })},
	{"loaders at work", monthly(func(m *Month) float64 { return m.Use[Loaders].Busy })},
	{"overtime of mixers", monthly(func(m *Month) float64 { return m.Use[Mixers].Overtime })},
	{"overtime of loaders", monthly(func(m *Month) float64 { return m.Use[Loaders].Overtime })},
	{"operators at work", monthly(func(m *Month) float64 { return m.Use[Operators].Busy })},
	{"changes by trigger", func(_ *Model, r *Record) bool { return len(r.Triggered) > 0 }},
	{"changes on a date", change(func(c *Change) bool { return !c.Trigger.Waits() })},
	{"changes in force from the start", func(m *Model, _ *Record) bool {
		return change(func(c *Change) bool { return !c.Trigger.Waits() && c.Date.Before(m.Begin()) })(m, nil)
	}},
	{"vessels that fail", func(m *Model, _ *Record) bool { return len(m.Outages) > 0 && !m.Vessels.Unlimited }},
	{"spells", func(m *Model, _ *Record) bool { return len(m.Spells) > 0 }},
	{"spells of other air", func(m *Model, _ *Record) bool {
		return slices.ContainsFunc(m.Spells, func(s Spell) bool { return s.Temperature != 0 })
	}},
	{"rain on recovered chips", func(m *Model, r *Record) bool {
		return m.rains() && total(r, func(m *Month) float64 { return m.Chips.RecoveredDry }) > 0
	}},
	{"changes of hours", change(func(c *Change) bool { return c.Hours != nil })},
	{"several sources of chips", monthly(func(m *Month) float64 {
		if len(m.Chips.Sources) < 2 {
			return 0
		}
		return m.Chips.Sources[1].Volume
	})},
	{"wood of the plant's own", monthly(func(m *Month) float64 { return m.Chips.Own })},
	{"several sources of cake", func(m *Model, _ *Record) bool { return len(m.Feed.Sources) > 1 }},
	{"pulses", func(m *Model, _ *Record) bool { return len(m.Feed.Pulses) > 0 }},
	{"dewatering on demand", func(m *Model, _ *Record) bool { return m.Dewatering.Rate > 0 }},
	{"maintenance of vessels", func(m *Model, _ *Record) bool { return m.Vessels.Service.Every > 0 }},
	{"loads of several classes", func(m *Model, r *Record) bool {
		classes := 0
		for i := range m.Vessels.Classes {
			if total(r, func(m *Month) float64 { return m.Classes[i].Loads }) > 0 {
				classes++
			}
		}
		return classes > 1
	}},
	{"unlimited vessels", func(m *Model, _ *Record) bool { return m.Vessels.Unlimited }},
	{"lots kept until they are dry", monthly(func(m *Month) float64 { return m.Drying.Lots })},
	{"loads dried in vessels", monthly(func(m *Month) float64 { return m.Drying.Loads })},
	{"lots too wet to screen", monthly(func(m *Month) float64 { return m.Drying.TooWet })},
	{"lots dried and screened first", func(m *Model, r *Record) bool {
		return m.Screening.First && total(r, func(m *Month) float64 { return m.Drying.Lots }) > 0
	}},
	{"loads that air does not reach throughout", func(m *Model, r *Record) bool {
		return m.Active.AirPath.Half > 0 && total(r, func(m *Month) float64 { return m.Release.Failed }) > 0
	}},
	{"lots that keep their warmth", func(m *Model, r *Record) bool {
		return m.Pile.Tipped != nil && total(r, func(m *Month) float64 { return m.Curing.Days }) > 0
	}},
	{"amendments bought", amending(func(a *MonthlyAmendment) float64 { return a.Bought })},
	{"amendments of own sources", amending(func(a *MonthlyAmendment) float64 { return a.Own })},
	{"amendments turned away", amending(func(a *MonthlyAmendment) float64 { return a.Turned })},
	{"amendments done without", amending(func(a *MonthlyAmendment) float64 { return a.Missed })},
	{"amendments waited for", amending(func(a *MonthlyAmendment) float64 { return a.HoursShort })},
	{"product mixed", func(m *Model, r *Record) bool {
		last := len(m.Amendments) - 1
		return last > 0 && m.Amendments[last].Source == FromProduct && total(r, func(m *Month) float64 { return m.Amendments[last].Used }) > 0
	}},
	{"vessels in use on the first day", opened(func(o *Opening) bool { return len(o.Vessels) > 0 })},
	{"lots on the pad on the first day", opened(func(o *Opening) bool { return len(o.Pad) > 0 })},
	{"stores on the first day", opened(func(o *Opening) bool { return min(o.Held.Dry(), o.Fresh.Dry(), o.Recovered.Dry(), o.Product.Dry()) > 0 })},
	{"lots of the first day where wet ones are kept", func(m *Model, r *Record) bool {
		return m.Drying.Gate != ScreenAnyway && opened(func(o *Opening) bool { return len(o.Pad) > 0 })(m, r)
	}},
	{"product screened first", func(m *Model, r *Record) bool {
		return m.Screening.First && total(r, func(m *Month) float64 { return m.Product.Dry }) > 0
	}},
}

func monthly(of func(*Month) float64) func(*Model, *Record) bool {
	return func(_ *Model, r *Record) bool { return total(r, of) > 0 }
}

func amending(of func(*MonthlyAmendment) float64) func(*Model, *Record) bool {
	return monthly(func(m *Month) float64 {
		sum := 0.0
		for i := range m.Amendments {
			sum += of(&m.Amendments[i])
		}
		return sum
	})
}

func opened(with func(*Opening) bool) func(*Model, *Record) bool {
	return func(m *Model, _ *Record) bool { return m.Opening != nil && with(m.Opening) }
}

func change(of func(*Change) bool) func(*Model, *Record) bool {
	return func(m *Model, _ *Record) bool {
		for i := range m.Changes {
			if of(&m.Changes[i]) {
				return true
			}
		}
		return false
	}
}
