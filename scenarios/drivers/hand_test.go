package drivers_test

import (
	"context"
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
)

// handFile returns the plant of testdata with its first growth scenario, which it
// follows in the form given, and with the uncertain inputs that are named.
func handFile(t *testing.T, growth plant.Growth, inputs ...string) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	p := &f.Planning
	p.Growths = []facilityfile.GrowthScenario{{Name: "the only one", Weight: 1, Growth: growth}}
	p.Inputs = slices.DeleteFunc(p.Inputs, func(u facilityfile.Uncertain) bool { return !slices.Contains(inputs, u.Key) })
	return f
}

var level = plant.Linear{}

// ask asks with so many workers, 0 for all cores.
func ask(ctx context.Context, t *testing.T, f *facilityfile.File, workers int, o drivers.Options) (*drivers.Answer, error) {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	return drivers.Ask(ctx, s, answer.Setup{}, o)
}

func plan(t *testing.T, f *facilityfile.File, o drivers.Options) *drivers.Answer {
	t.Helper()
	return planWith(t, f, 0, o)
}

func planWith(t *testing.T, f *facilityfile.File, workers int, o drivers.Options) *drivers.Answer {
	t.Helper()
	a, err := ask(context.Background(), t, f, workers, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: %g, by hand %g ± %g", what, got, want, tolerance)
	}
}

// The chips bought, by hand. No chips come back, and a kilogram of dry cake, of
// which 200 are in a cubic metre, takes 2.5/200 m3 of chips with it. The range of
// the production is 200 kg/day: 200 × 365.25 × 0.0125 = 913 m3/year from one end to
// the other. In the model cake and chips are up to 2 % denser than these round
// figures, so that 4 % are allowed, and what the store holds more or less at the end,
// a truckload of 50 m3 in 4 years; an effect is twice the difference of two runs.
//
// The ratio of chips to cake has the effect of its own range, a fifth of the mean:
// 0.2 × 600 × 365.25 × 0.0125 = 548. Each of the two is moved where the other stands,
// which over the paths is within a tenth of its middle.
//
// Turnaround does not matter as long as vessels are not short: nothing at all, as
// every set of random numbers is the same here.
func TestChipsFoundByHand(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day", "mix.chips_to_cake", "vessels.turnaround")
	f.Model.Years = 4
	const truckload = 2 * 50.0 / 4
	a := plan(t, f, drivers.Options{Output: drivers.ChipsBought, Replications: 1})
	byKey := keyed(a)
	solids := byKey["solids.dry_per_day"].Effect
	within(t, "solids", solids.MuStar.Estimate, 913, 0.14*913+truckload)
	within(t, "solids, with the sign", solids.Mu, solids.MuStar.Estimate, 1e-9)
	within(t, "chips to cake", byKey["mix.chips_to_cake"].Effect.MuStar.Estimate, 548, 0.14*548+truckload)
	within(t, "turnaround", byKey["vessels.turnaround"].Effect.MuStar.Estimate, 0, 0)
	within(t, "noise", a.Noise.Effect.MuStar.Estimate, 0, 0)
	if a.Unpriced {
		t.Error("prices are said to be left out where none is uncertain")
	}
	if a.Drivers[0].Key != "solids.dry_per_day" || a.Drivers[2].Key != "vessels.turnaround" {
		t.Errorf("order of the inputs: %s, %s, %s", a.Drivers[0].Key, a.Drivers[1].Key, a.Drivers[2].Key)
	}
}

// Alone an input has nothing to work with, and every move is the same.
func TestAlone(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day")
	f.Model.Years = 4
	const truckload = 2 * 50.0 / 4
	alone := plan(t, f, drivers.Options{Output: drivers.ChipsBought, Replications: 1}).Drivers[0]
	within(t, "effect", alone.Effect.MuStar.Estimate, 913, 0.04*913+truckload)
	within(t, "its spread", alone.Effect.Sigma, 0, truckload)
	within(t, "the 5 % quantile", alone.Low, 510, 1e-9)
	within(t, "the 95 % quantile", alone.High, 690, 1e-9)
}

func keyed(a *drivers.Answer) map[string]drivers.Driver {
	m := map[string]drivers.Driver{}
	for _, d := range a.Drivers {
		m[d.Key] = d
	}
	return m
}

// With noise, an input without effect stays below the noise floor, and one that
// matters is found as before.
func TestNoiseIsNoEffect(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day", "vessels.turnaround")
	f.Model.Feed.Noise = random.AR1Lognormal{CV: 0.1, Correlation: 0.5}
	f.Model.Years = 2
	a := plan(t, f, drivers.Options{Output: drivers.ChipsBought})
	byKey := keyed(a)
	turnaround, solids := byKey["vessels.turnaround"], byKey["solids.dry_per_day"]
	if a.Above(&turnaround) || a.Noise.Effect.MuStar.Estimate == 0 {
		t.Errorf("turnaround seems to do %g, noise %g", turnaround.Effect.MuStar.Estimate, a.Noise.Effect.MuStar.Estimate)
	}
	if !a.Above(&solids) {
		t.Errorf("solids seem to do %g, noise %g", solids.Effect.MuStar.Estimate, a.Noise.Effect.MuStar.Estimate)
	}
	within(t, "solids", solids.Effect.MuStar.Estimate, 913, 0.1*913)
}

// What chips cost, by hand: at 600 kg/day 600 × 1,461 × 0.0125 = 10,960 m3 are used in
// 4 years of 1,461 days. A range of 4 USD/m3 is 43,830 USD, within 4 % as above and a
// truckload.
func TestCostFoundByHand(t *testing.T) {
	f := handFile(t, level, "chips.price")
	f.Model.Years = 4
	a := plan(t, f, drivers.Options{Output: drivers.PresentWorth, Replications: 1})
	within(t, "price", a.Drivers[0].Effect.MuStar.Estimate, 43830, 0.04*43830+2*4*50)
	// The price goes from 8.25 to 11.75 USD/m3.
	within(t, "least", a.Least, 8.25*10960, 0.05*8.25*10960)
	within(t, "most", a.Most, 11.75*10960, 0.05*11.75*10960)
}

// The year in which the target is missed, by hand. A load holds 2,000 kg dry cake
// and takes a vessel for 20 days, so that 8 vessels carry 800 kg/day. Production b
// rises by b/15 a year. The share of year y that leaves untreated passes 1 % where
// the mean of the year, b·(1 + (y + ½)/15), is 808: y + ½ = 15 × (808/b − 1). That is
// 7.1 for 550 kg/day at the lower quartile and 3.6 for 650 at the upper one, which
// are as far apart as half of the range is on average: 3.5 years, 7.0 for the whole
// range, beside what the line between two years leaves out, a good half of a year
// at either end.
func TestVesselYearFoundByHand(t *testing.T) {
	f := handFile(t, plant.Linear{Rate: 1.0 / 15}, "solids.dry_per_day")
	f.Model.Years = 10
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	d := a.Drivers[0]
	within(t, "solids", d.Effect.MuStar.Estimate, 7, 1)
	within(t, "solids, with the sign", d.Effect.Mu, -d.Effect.MuStar.Estimate, 1e-9)
	within(t, "runs kept to the end", a.Kept, 0, 0)
}

// Where the target is never missed the end of the horizon stands for the year, and
// the answer says in how many runs: without growth 8 vessels carry 700 kg/day.
func TestNeverMissed(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day", "chips.price")
	f.Model.Years = 2
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	if len(a.Drivers) != 1 || !a.Unpriced {
		t.Errorf("%d inputs are moved, prices said to be left out: %v", len(a.Drivers), a.Unpriced)
	}
	within(t, "runs kept to the end", a.Kept, 1, 1e-9)
	within(t, "year", a.Mean, 2, 0)
	within(t, "solids", a.Drivers[0].Effect.MuStar.Estimate, 0, 0)
}

// The growth scenario is an input of its own: at the end with the lowest quantile
// is what brings least, whatever the order in the file. By hand for the chips of 12
// years: production of 600 kg/day is 0.88 of it in the mean if it falls by 2 % of the
// start a year, and 1.48 if it rises by 8 %: 0.6 × 2,739 m3/year between the two. The
// weights put them at 0 to 20 % and 70 to 100 %: moves by half of the range go from
// falling to level or rising (0.12 or 0.6 of 2,739), or from level to rising (0.48).
func TestGrowthScenarios(t *testing.T) {
	f, err := facilityfile.Open("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	f.Planning.Inputs = nil
	f.Model.Vessels.Unlimited = true
	a := plan(t, f, drivers.Options{Output: drivers.ChipsBought, Replications: 1})
	d := a.Drivers[0]
	if d.Key != drivers.GrowthKey || d.LowName != "falling" || d.HighName != "rising" {
		t.Errorf("%s goes from %q to %q", d.Key, d.LowName, d.HighName)
	}
	if !(d.Effect.Mu == d.Effect.MuStar.Estimate && d.Effect.Mu > 2*0.12*2739 && d.Effect.Mu < 2*0.6*2739) {
		t.Errorf("effect %g, with the sign %g", d.Effect.MuStar.Estimate, d.Effect.Mu)
	}
}

// Shares of the variance, by hand: the chips bought are in proportion to production
// and to the ratio of chips to cake. Of a product of two independent numbers with
// variations of 200/√12/600 = 0.0962 and 0.5/√12/2.5 = 0.0577, whose squares are 0.00926
// and 0.00333, the first accounts for 0.00926/(0.00926 + 0.00333 + 0.00926 × 0.00333) =
// 73.4 % and the second for 26.4 %. The noise has no part in it. With 200 rows a share is
// off by some 0.05 as often as not (derived, of the order of 1/√200).
func TestSharesFoundByHand(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day", "mix.chips_to_cake")
	f.Model.Years, f.Model.WarmUp = 1, 0
	a := plan(t, f, drivers.Options{Output: drivers.ChipsBought, Trajectories: 2, Replications: 1, Rows: 200})
	byKey := keyed(a)
	for key, want := range map[string]float64{"solids.dry_per_day": 0.734, "mix.chips_to_cake": 0.264} {
		s := byKey[key].Share
		within(t, key+", alone", s.First.Estimate, want, 0.15)
		within(t, key+", in all", s.Total.Estimate, want, 0.15)
	}
	within(t, "noise", a.Noise.Share.Total.Estimate, 0, 0)
	// The standard deviation is 0.1123 of 2,739 m3/year.
	within(t, "standard deviation", a.SD, 0.1123*2739, 0.1*0.1123*2739)
}

// The answer does not depend on the number of workers, and does on the seed.
func TestWorkersDoNotMatter(t *testing.T) {
	answer := func(workers int, seed uint64) *drivers.Answer {
		f := handFile(t, level, "solids.dry_per_day", "vessels.turnaround")
		f.Model.Feed.Noise.CV = 0.2
		f.Model.Years, f.Model.WarmUp, f.Seed = 1, 0, seed
		return planWith(t, f, workers, drivers.Options{Output: drivers.ChipsBought, Trajectories: 3, Rows: 4})
	}
	one, two := answer(1, 1), answer(2, 1)
	if !reflect.DeepEqual(one, two) {
		t.Errorf("1 worker: %+v\n2 workers: %+v", one, two)
	}
	if other := answer(2, 2); reflect.DeepEqual(one.Drivers, other.Drivers) {
		t.Error("another seed gives the same")
	}
	if want := 3*4*2 + 4*5; one.Runs != want { // paths of 3 moves, twice; rows of 3 inputs and 2
		t.Errorf("%d runs, want %d", one.Runs, want)
	}
}

// What the file lacks is said, with what to write.
func TestRefusals(t *testing.T) {
	for _, c := range []struct {
		name   string
		output drivers.Output
		file   func() *facilityfile.File
		want   string
	}{
		{"nothing uncertain", drivers.VesselYear, func() *facilityfile.File { return handFile(t, level) }, "- {input: solids.dry_per_day, uniform: ["},
		{"prices for vessels", drivers.VesselYear, func() *facilityfile.File { return handFile(t, level, "chips.price") }, "ask for --answer cost"},
		{"no money", drivers.PresentWorth, func() *facilityfile.File {
			f := handFile(t, level, "solids.dry_per_day")
			f.Planning.Priced = false
			return f
		}, "no section on money"},
	} {
		_, err := ask(context.Background(), t, c.file(), 0, drivers.Options{Output: c.output})
		if !errors.As(err, new(*facilityfile.Error)) || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "testdata/hand.yaml: ") {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}

// A run that is told to stop does.
func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := ask(ctx, t, handFile(t, level, "solids.dry_per_day"), 0, drivers.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("error %v", err)
	}
}
