package drivers_test

import (
	"context"
	"errors"
	"reflect"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/drivers"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
)

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

// Nor does the year by what the plant carries depend on the number of workers, with noise
// and growth scenarios. With a target that allows fewer years to miss it is sooner.
func TestWorkersDoNotMatterToTheYear(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	answer := func(workers int, misses float64) *drivers.Answer {
		f := handFile(t, plant.Linear{Rate: 1.0 / 15}, "solids.dry_per_day", "vessels.turnaround")
		f.Planning.Growths = append(f.Planning.Growths, facilityfile.GrowthScenario{Name: "slower", Weight: 0.5, Growth: plant.Linear{Rate: 1.0 / 30}})
		f.Planning.Growths[0].Weight = 0.5
		f.Model.Feed.Noise = random.AR1Lognormal{CV: 0.2, Correlation: 0.5}
		f.Planning.Target.MissShare = misses
		return planWith(t, f, workers, drivers.Options{Output: drivers.VesselYear, Trajectories: 2, Replications: 1, Rows: 2})
	}
	one, two := answer(1, 0.2), answer(2, 0.2)
	if !reflect.DeepEqual(one, two) {
		t.Errorf("1 worker: %+v\n2 workers: %+v", one, two)
	}
	if one.Noise.Effect.MuStar.Estimate == 0 || one.Main != "the only one" || one.Runs != 2*5+2*6 {
		t.Errorf("luck does %g; main growth %q; %d runs", one.Noise.Effect.MuStar.Estimate, one.Main, one.Runs)
	}
	if strict := answer(0, 0.02); strict.Median >= one.Median {
		t.Errorf("more than 2 %% of the years miss from %g on, more than 20 %% from %g", strict.Median, one.Median)
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
