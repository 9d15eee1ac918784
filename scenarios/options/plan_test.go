package options

import (
	"context"
	"errors"
	"math"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// about reports whether two numbers agree within a relative tolerance.
func about(a, b, tolerance float64) bool {
	return math.Abs(a-b) <= tolerance*math.Max(1e-9, math.Abs(b))
}

// The best of a small case, found by hand. Three vessels are fed for four, so that
// a quarter of the solids is hauled away: the plant as it is and a better store
// miss the target, and two more vessels keep it. Money does not lose worth.
//
//	long-lived vessels   100,000 USD, 20 years, 2 % upkeep a year: after two years
//	                     10,000 of it is used up, and upkeep is 4,000: 14,000 USD
//	short-lived vessels  60,000 USD, 4 years: half of it is used up: 30,000 USD
//	a better store       1,000 USD, 2 years: 1,000 USD
//	as it is             nothing
//
// So the order is long-lived, short-lived, as it is, store; the first is cheaper
// than the next that keeps the target by 16,000 USD. In the other growth scenario,
// believed in by one to three, half as much is fed and all keep the target, at the
// same costs. So regret is over the long-lived vessels in the first, where what
// misses has none, and over nothing in the other:
//
//	long-lived vessels   0.75 × 0 + 0.25 × 14,000 = 3,500 USD, 14,000 at worst
//	short-lived vessels  0.75 × 16,000 + 0.25 × 30,000 = 19,500 USD, 30,000 at worst
func TestBestByHand(t *testing.T) {
	s := smallPlant(t, 4)
	f := s.File
	twoScenarios(f)
	long := vessels(f, 2, 100e3, 20)
	long.Asset.Maintenance = 0.02
	store := facilityfile.Step{Change: plant.Change{Name: "store", Date: f.Model.Start, ProductStore: 10}}
	store.Asset = money.Asset{Cost: money.Price{Amount: 1000}, Life: 2}
	f.Planning.Options = []facilityfile.Option{
		{Name: "short-lived vessels", Steps: []facilityfile.Step{vessels(f, 2, 60e3, 4)}},
		{Name: "a better store", Steps: []facilityfile.Step{store}},
		{Name: "long-lived vessels", Steps: []facilityfile.Step{long}},
	}
	a := mustAsk(t, s, Options{Replications: 2})

	if want := []int{3, 1, 0, 2}; !reflect.DeepEqual(a.Order, want) {
		t.Fatalf("order %v, want %v", a.Order, want)
	}
	for i, want := range []struct {
		cost          float64
		keeps         bool
		regret, worst float64
	}{{0, false, 0, 0}, {30e3, true, 19.5e3, 30e3}, {1000, false, 0, 0}, {14e3, true, 3.5e3, 14e3}} {
		c := &a.Choices[i]
		if c.Service.Keeps != want.keeps || !about(c.All.Present.Estimate, want.cost, 1e-9) || !about(c.Regret, want.regret, 1e-9) || !about(c.WorstRegret, want.worst, 1e-9) {
			t.Errorf("%s: %+v, regret %g and %g; want %+v", c.Name, c.All.Present, c.Regret, c.WorstRegret, want)
		}
		if (c.Regretted == Stated) != want.keeps || (c.Growths[0].Regretted == Stated) != want.keeps || c.Growths[1].Regret != want.cost {
			t.Errorf("%s: regret %v, %v and %v with %g", c.Name, c.Regretted, c.Growths[0].Regretted, c.Growths[1].Regretted, c.Growths[1].Regret)
		}
		if !about(c.All.OverFirst.Estimate, want.cost-14e3, 1e-9) || !about(c.All.OverAsIs.Estimate, want.cost, 1e-9) || c.All.OverFirst.HalfWidth() > 1e-6 {
			t.Errorf("%s: %+v over the first, %+v over the plant as it is", c.Name, c.All.OverFirst, c.All.OverAsIs)
		}
		if !c.Growths[1].Keeps || c.Growths[0].Keeps != want.keeps {
			t.Errorf("%s keeps the target: %v and %v", c.Name, c.Growths[0].Keeps, c.Growths[1].Keeps)
		}
	}
	if a.Chance != 1 {
		t.Errorf("chance %g where nothing varies, want 1", a.Chance)
	}
	const want = "Choose “long-lived vessels”: it keeps the service target in every year through 2028/29 and costs 16,000 USD of 2027 less (present worth; 16,000 to 16,000) than the next that does, “short-lived vessels”. Chance that it is the cheapest that does: over 99 %."
	if got := a.Headline().Plain(units.US); got != want {
		t.Errorf("headline\n%s, want\n%s", got, want)
	}
}

// What is hauled away is charged: fed for four vessels with three, a quarter of
// the dry solids leaves untreated, and costs as much per dry mass as a tipping
// fee of 0.1 USD/kg wet over the cake's solids content. The tolerances are for the
// time that filling takes, whole batches, loads in hand at the ends, and rejects,
// which are hauled too.
func TestTippingIsCharged(t *testing.T) {
	s := smallPlant(t, 4)
	f := s.File
	f.Planning.Economy.Prices.Tipping.Amount = 0.1
	f.Planning.Options = []facilityfile.Option{{Name: "vessels", Steps: []facilityfile.Step{vessels(f, 2, 0, 20)}}}
	a := mustAsk(t, s, Options{Replications: 2})
	asIs := a.Choices[0].All
	if !about(asIs.Share, 0.25, 0.1) {
		t.Errorf("%.3f of the solids leaves untreated, want 0.25", asIs.Share)
	}
	solids := f.Model.Feed.CakeSolids[0]
	if saved := -a.Choices[1].All.OverAsIs.Estimate; !about(saved, asIs.Diverted/solids*0.1, 0.02) {
		t.Errorf("two more vessels save %.0f USD of tipping; %.0f kg dry at %.0f %% solids are %.0f USD", saved, asIs.Diverted, 100*solids, asIs.Diverted/solids*0.1)
	}
	if math.Abs(asIs.YearsMissed-years) > 1e-9 || a.Choices[0].Service.FirstMissed != 0 || a.Choices[1].All.YearsMissed > 1e-9 {
		t.Errorf("years missed %g from %d, with vessels %g", asIs.YearsMissed, a.Choices[0].Service.FirstMissed, a.Choices[1].All.YearsMissed)
	}
	if over := a.Choices[0].All.Annual * years; !about(over, asIs.Present.Estimate, 1e-9) {
		t.Errorf("two equal years at no discount cost %g, the present worth is %g", over, asIs.Present.Estimate)
	}
}

// Missing the target is charged where it has a price: fed for four vessels with
// three, each kg dry that leaves untreated beyond the 1 % of a year that may costs
// 2 USD, as a part of the cost by itself. Two vessels for 10,000 USD that keep
// nothing of their worth are then the cheapest, and the plant as it is, which would
// have no regret, has one.
func TestMissingIsCharged(t *testing.T) {
	s := smallPlant(t, 4)
	f := s.File
	f.Planning.Economy.Prices.Missing.Amount = 2
	f.Planning.Options = []facilityfile.Option{{Name: "vessels", Steps: []facilityfile.Step{vessels(f, 2, 10e3, years)}}}
	a := mustAsk(t, s, Options{Replications: 2})
	asIs, more := &a.Choices[0], &a.Choices[1]
	fed := asIs.All.Diverted / asIs.All.Share
	want := 2 * (asIs.All.Diverted - 0.01*fed)
	if got := asIs.All.ByPart[money.Missing]; want < 20e3 || !about(got, want, 1e-9) || !about(asIs.All.Present.Estimate, want, 1e-9) {
		t.Errorf("missing costs %.0f USD of %.0f, want %.0f", got, asIs.All.Present.Estimate, want)
	}
	if more.All.ByPart[money.Missing] != 0 || !about(more.All.Present.Estimate, 10e3, 1e-9) {
		t.Errorf("with vessels missing costs %.0f USD of %.0f", more.All.ByPart[money.Missing], more.All.Present.Estimate)
	}
	if asIs.Regretted != Stated || !about(asIs.Regret, want-10e3, 1e-9) || more.Regretted != Stated || more.Regret != 0 {
		t.Errorf("regret %v %g and %v %g, want %g and 0", asIs.Regretted, asIs.Regret, more.Regretted, more.Regret, want-10e3)
	}
	if a.Missing != 2 || asIs.All.WaitedAlone != 0 {
		t.Errorf("price %g, %g years missed by waiting alone", a.Missing, asIs.All.WaitedAlone)
	}
}

// A step that waits for a full holding is taken, and paid, only under the growth
// scenario that fills it; two steps of one name are told apart.
func TestTriggeredSteps(t *testing.T) {
	s := smallPlant(t, 4)
	f := s.File
	twoScenarios(f)
	f.Planning.Options = []facilityfile.Option{{Name: "in time", Steps: []facilityfile.Step{
		onTrigger(vessels(f, 1, 1000, 2)), onTrigger(vessels(f, 1, 4000, 2)),
	}}}
	a := mustAsk(t, s, Options{Replications: 2})
	steps := a.Choices[1].Steps
	if len(steps) != 2 || steps[0].Name != "vessels" || steps[1].Name != "vessels (2)" {
		t.Fatalf("steps %+v", steps)
	}
	for _, s := range steps {
		if !about(s.Taken, 0.75, 1e-9) || s.InService != f.Model.Start {
			t.Errorf("%s taken in %g of the runs, in service %v; want 0.75, at the start, since the warm-up fills the holding", s.Name, s.Taken, s.InService)
		}
	}
	if full, half := a.Choices[1].Growths[0].Present.Estimate, a.Choices[1].Growths[1].Present.Estimate; !about(full, 5000, 1e-9) || half != 0 {
		t.Errorf("%g USD where the holding fills, %g where not; want 5000 and 0", full, half)
	}
}

// A step that waits for the production of twelve months is taken under the growth
// scenario that brings it, and paid there alone. With linear growth of 30 % of the
// first year's production a year, the twelve months before 1 August 2028, which begin
// 122 days after the start, bring 1 + 0.3 · ((122 + 183)/365.25 − ½) = 1.101 times
// those of the first year, and those before 1 July (91 days) 1.075 times: 1.09 is
// passed on 1 August. The warm-up makes less.
func TestStepOnProduction(t *testing.T) {
	s := smallPlant(t, 2)
	f := s.File
	twoScenarios(f)
	f.Planning.Growths[1].Growth = plant.Linear{Rate: 0.3}
	more := vessels(f, 1, 1000, 2)
	more.Trigger.Production = 1.09 * f.Model.Feed.Base
	f.Planning.Options = []facilityfile.Option{{Name: "in time", Steps: []facilityfile.Step{more}}}
	a := mustAsk(t, s, Options{Replications: 2})
	steps, want := a.Choices[1].Steps, calendar.Date{Year: 2028, Month: 8, Day: 1}
	if len(steps) != 1 || !steps[0].Triggered || !about(steps[0].Taken, 0.25, 1e-9) || steps[0].InService != want {
		t.Errorf("%+v, want it in a quarter of the runs, in service %v", steps, want)
	}
	if steady, growing := a.Choices[1].Growths[0].Present.Estimate, a.Choices[1].Growths[1].Present.Estimate; steady != 0 || !(growing > 0) {
		t.Errorf("%g USD where production stays, %g where it grows", steady, growing)
	}
}

// A discount rate asked for takes the place of the file's: a cost of 1,000 USD a
// year, paid at its end, at 10 % instead of 0.
func TestDiscount(t *testing.T) {
	s := smallPlant(t, 2)
	f := s.File
	f.Planning.Economy.Overhead = 1000
	f.Planning.Options = []facilityfile.Option{{Name: "vessels", Steps: []facilityfile.Step{vessels(f, 1, 0, 20)}}}
	rate := 0.1
	a := mustAsk(t, s, Options{Replications: 2, Discount: &rate})
	if got, want := a.Choices[0].All.Present.Estimate, 1000/1.1+1000/1.21; !about(got, want, 1e-9) || !about(a.Real, 0.1, 1e-9) {
		t.Errorf("%g USD at %g, want %g at 0.1", got, a.Real, want)
	}
}

// varying puts the noise back.
func varying(t *testing.T, need float64) *study.Study {
	s := smallPlant(t, need)
	f := s.File
	f.Model.Feed.Noise = random.AR1Lognormal{CV: 0.4, Correlation: 0.9}
	f.Planning.Economy.Prices = money.Prices{
		Labour: money.Price{Amount: 40}, Chips: money.Price{Amount: 15}, Tipping: money.Price{Amount: 0.1},
	}
	f.Planning.Options = []facilityfile.Option{
		{Name: "one", Steps: []facilityfile.Step{vessels(f, 1, 50e3, 20)}},
		{Name: "two", Steps: []facilityfile.Step{vessels(f, 2, 100e3, 20)}},
	}
	return s
}

// The answer does not depend on the number of workers, and another seed gives
// another.
func TestWorkers(t *testing.T) {
	with := func(workers int, seed uint64) *Answer {
		s := varying(t, 3.5)
		s.Workers, s.File.Seed = workers, seed
		return mustAsk(t, s, Options{Replications: 10})
	}
	one, two := with(1, 1), with(2, 1)
	if !reflect.DeepEqual(one, two) {
		t.Errorf("1 and 2 workers differ:\n%+v\n%+v", one, two)
	}
	if other := with(2, 2); other.Choices[0].All.Present == one.Choices[0].All.Present {
		t.Error("another seed gives the same cost")
	}
}

// Rounds end as soon as the answer is sure, and no later than allowed. Without
// noise the costs are sure at once, and what the plant carries says who keeps the
// target. Where years do not stand for themselves it is the runs that must say so: 4
// without a miss do not show that no more than 5 % miss, Wilson's interval needs 73
// (n = z²(1 − p)/p, derived). Only the choice in doubt gets them: the plant as it is
// surely misses.
func TestEffort(t *testing.T) {
	s := smallPlant(t, 4)
	f := s.File
	two := facilityfile.Option{Name: "two", Steps: []facilityfile.Step{vessels(f, 2, 100e3, 20)}}
	pad := facilityfile.Option{Name: "a pad", Steps: []facilityfile.Step{{Change: plant.Change{Name: "pad", Date: f.Model.Start, Pad: 100}}}}
	f.Planning.Options = []facilityfile.Option{two, pad}
	if a := mustAsk(t, s, Options{Replications: 13}); a.Replications != 4 || !a.Settled || a.Runs != 4+4+4 {
		t.Errorf("%d replications, %d runs, settled: %v; want 4, 12, true", a.Replications, a.Runs, a.Settled)
	}
	f.Planning.Options = []facilityfile.Option{two}
	f.Model.Feed.Pulses = []plant.Pulse{{From: f.Model.Start, Days: 1}} // of nothing, but on a date
	if a := mustAsk(t, s, Options{Replications: 13}); a.Replications != 4 || a.Choices[0].Judged != 4 || a.Choices[1].Replications != 4 || a.Choices[1].Judged != 13 || a.Settled || a.Runs != 4+13 {
		t.Errorf("%d and %d replications, %d judged by, %d runs, settled: %v; want 4, 4, 13, 17, false", a.Replications, a.Choices[1].Replications, a.Choices[1].Judged, a.Runs, a.Settled)
	}
	if a := mustAsk(t, s, Options{Replications: 100}); a.Choices[1].Judged != 76 || !a.Settled {
		t.Errorf("judged by %d replications, settled: %v; want 76, the first round with 73 or more, true", a.Choices[1].Judged, a.Settled)
	}
	f.Planning.Target.MissShare = 0.5 // 4 runs show that
	if a := mustAsk(t, s, Options{Replications: 100}); a.Replications != 4 || a.Choices[1].Judged != 4 || !a.Settled {
		t.Errorf("%d replications, %d judged by, settled: %v; want 4, 4, true", a.Replications, a.Choices[1].Judged, a.Settled)
	}
	calls, last := 0, 0
	setup := answer.Setup{Progress: func(_ string, done, planned int) {
		calls++
		if last = done; planned != 20 {
			t.Errorf("%d runs planned, at most 20 can be", planned)
		}
	}}
	if _, err := Ask(context.Background(), s, setup, Options{Replications: 10}); err != nil {
		t.Fatal(err)
	}
	if calls != 8 || last != 8 {
		t.Errorf("progress called %d times, last with %d; want 8", calls, last)
	}
}

// A file without money or options is refused with what to write, and an ended
// context ends the comparison.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		change func(*facilityfile.File)
		want   string
	}{
		{func(f *facilityfile.File) { f.Planning.Priced = false }, "dunmarrow.yaml: it has no prices to compare options by; write a group money:"},
		{func(f *facilityfile.File) { f.Planning.Options = nil }, "dunmarrow.yaml: it has no options to compare with the plant as it is; write options:"},
		{func(f *facilityfile.File) { f.Replications = 1 }, "dunmarrow.yaml: options are compared by 2 replications or more"},
	} {
		s := varying(t, 3)
		c.change(s.File)
		_, err := Ask(context.Background(), s, answer.Setup{}, Options{})
		if !errors.As(err, new(*facilityfile.Error)) || !strings.HasPrefix(err.Error(), c.want) {
			t.Errorf("%v, want %s", err, c.want)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Ask(ctx, varying(t, 3), answer.Setup{}, Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	rate := -2.0
	if _, err := Ask(context.Background(), varying(t, 3), answer.Setup{}, Options{Replications: 2, Discount: &rate}); err == nil || !strings.Contains(err.Error(), "discount rate") {
		t.Errorf("a discount rate without meaning: %v", err)
	}
}
