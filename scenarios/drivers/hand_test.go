package drivers_test

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
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

// wide returns the plant of testdata where the turnaround of a vessel may take one day to
// three.
func wide(t *testing.T) *facilityfile.File {
	t.Helper()
	data, err := os.ReadFile("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	const narrow = "uniform: [47 h, 49 h]"
	if !strings.Contains(string(data), narrow) {
		t.Fatalf("the file has no %s", narrow)
	}
	f, err := facilityfile.Parse("hand.yaml", []byte(strings.Replace(string(data), narrow, "uniform: [24 h, 72 h]", 1)))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The year from which on the target is missed, by hand. A load holds 2,000 kg dry cake
// and takes a vessel for 20 days, so that 8 vessels carry 800 kg/day, and a year may lose
// 1 %: 808. Production is b in the mean of the first year and rises by b/15 a year, 40
// kg/day in the middle. It rises within each year, too, which is heavier than its mean, by
// some 3 kg/day at that pace (see the test of heavy): 805 in the mean is what passes.
//
// Production is 15 × (805/b − 1) years after the first at that, and in the year after is
// the first miss: 6.1 years after the start for 600 kg/day.
//
// The input goes from b to b + 100, half of its range, where b is 512, 537, 562 or 587:
// 15 × 805 × (1/b − 1/(b + 100)) is 3.8, 3.5, 3.2 or 3.0 years, twice which is 6.8 in the
// mean and from 6.3 to 7.2 for whichever of the ten paths.
func TestVesselYearFoundByHand(t *testing.T) {
	f := handFile(t, plant.Linear{Rate: 1.0 / 15}, "solids.dry_per_day")
	f.Model.Years = 10
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	d := a.Drivers[0]
	if a.ByRuns != "" {
		t.Fatalf("it goes by runs, because %s", a.ByRuns)
	}
	within(t, "with the input at its median", a.Median, 6.1, 0.25)
	within(t, "solids", d.Effect.MuStar.Estimate, 6.8, 0.5)
	within(t, "solids, with the sign", d.Effect.Mu, -d.Effect.MuStar.Estimate, 1e-9)
	within(t, "points kept to the end", a.Kept, 0, 0)
	within(t, "points missed from the start", a.Begun, 0, 0)
	within(t, "noise", a.Noise.Effect.MuStar.Estimate, 0, 1e-9)
	// What moves production alone takes no ramps of its own: eight replications of the
	// plant at its medians, each twice, are all that 30 points take, of 9 years each, beside
	// fewer than 100 that find what is carried, and the whole runs of six years and a
	// warm-up that check it.
	if most := 8*2*9 + 100 + capability.Checks*7; a.Simulated > most {
		t.Errorf("%d years simulated, want %d at most", a.Simulated, most)
	}
}

// What moves the plant moves the year, by hand. With a turnaround of 1 to 3 days a load
// takes a vessel for 19 to 21 days: half of the range is a day, about 20 in the mean, and
// moves what 8 vessels carry by a twentieth, 40 kg/day, which is what production rises by
// in a year: one year, two for the whole range, within the fifth that the ends of
// a ramp's years blur.
func TestTurnaroundMovesTheYearByHand(t *testing.T) {
	f := wide(t)
	p := &f.Planning
	p.Growths = []facilityfile.GrowthScenario{{Name: "the only one", Weight: 1, Growth: plant.Linear{Rate: 1.0 / 15}}}
	p.Inputs = slices.DeleteFunc(p.Inputs, func(u facilityfile.Uncertain) bool { return u.Key != "vessels.turnaround" })
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	d := a.Drivers[0]
	within(t, "turnaround", d.Effect.MuStar.Estimate, 2, 0.4)
	within(t, "turnaround, with the sign", d.Effect.Mu, -d.Effect.MuStar.Estimate, 1e-9)
	within(t, "with the input at its median", a.Median, 6.1, 0.25)
}

// What fills over many years is not seen in single ones: of the compost of 700 kg a day
// almost all is taken, and the store for it fills over the horizon, after which cake must
// wait. By single years eight vessels carry it; whole runs contradict, as in `when`, and
// the year is that of runs.
func TestWhatFillsGoesByRuns(t *testing.T) {
	f := handFile(t, plant.Linear{Rate: 0.01}, "vessels.turnaround")
	f.Model.Feed.Base = 700
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	run, err := s.Simulate(context.Background(), study.Run{Case: &study.Case{Years: 3}})
	if err != nil {
		t.Fatal(err)
	}
	compost, cake := 0.0, 0.0
	for _, m := range run.Record.Months {
		compost += m.Product.Volume
		cake += m.Feed.Dry
	}
	of := compost / cake // m3 of a kg
	for i := range f.Model.Product.Demand {
		f.Model.Product.Demand[i] = 690 * of
	}
	f.Model.Product.Capacity, f.Model.Curing.Capacity = 200*365*of, 1500
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Trajectories: 2, Replications: 1})
	if a.ByRuns != capability.Contradicted {
		t.Errorf("it goes by runs because %q", a.ByRuns)
	}
}

// Where years do not stand each for itself, single runs tell when the target is first
// missed, and the answer says why: here a pulse of production lies beyond the horizon,
// and the rest is as above, but for what the line between two years leaves out, a good
// half of a year at either end.
func TestUnsteadyGoesByRuns(t *testing.T) {
	f := handFile(t, plant.Linear{Rate: 1.0 / 15}, "solids.dry_per_day")
	f.Model.Years = 10
	f.Model.Feed.Pulses = []plant.Pulse{{From: f.Model.Start.AddYears(11), Days: 1, PerDay: 1}}
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	if !strings.Contains(a.ByRuns, "pulses") || a.Simulated != 0 {
		t.Errorf("because %q; %d years simulated up ramps", a.ByRuns, a.Simulated)
	}
	d := a.Drivers[0]
	within(t, "solids", d.Effect.MuStar.Estimate, 7, 1)
	within(t, "solids, with the sign", d.Effect.Mu, -d.Effect.MuStar.Estimate, 1e-9)
	within(t, "runs kept to the end", a.Kept, 0, 0)
}

// Where the target is never missed the end of the horizon stands for the year, and
// the answer says at how many points, or in how many runs: without growth 8 vessels carry
// 700 kg/day.
func TestNeverMissed(t *testing.T) {
	for _, pulses := range [][]plant.Pulse{nil, {{From: calendar.Date{Year: 2040, Month: 1, Day: 1}, Days: 1, PerDay: 1}}} {
		f := handFile(t, level, "solids.dry_per_day", "chips.price")
		f.Model.Years = 2
		f.Model.Feed.Pulses = pulses
		a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
		if len(a.Drivers) != 1 || !a.Unpriced {
			t.Errorf("%d inputs are moved, prices said to be left out: %v", len(a.Drivers), a.Unpriced)
		}
		within(t, "kept to the end", a.Kept, 1, 1e-9)
		within(t, "year", a.Mean, 2, 0)
		within(t, "solids", a.Drivers[0].Effect.MuStar.Estimate, 0, 0)
	}
}

// Without growth too few vessels miss from the start on: 6 carry 600 kg/day, at half of
// the points too little.
func TestMissedFromTheStart(t *testing.T) {
	f := handFile(t, level, "solids.dry_per_day")
	f.Model.Years, f.Model.Vessels.Installed = 2, 6
	a := plan(t, f, drivers.Options{Output: drivers.VesselYear, Replications: 1})
	within(t, "missed from the start", a.Begun, 0.5, 0.1) // the points at which chance alone moves are not paired
	within(t, "kept to the end", a.Kept, 1-a.Begun, 1e-9)
	within(t, "solids", a.Drivers[0].Effect.Mu, -4, 1e-9)
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
