package simulate_test

import (
	"testing"

	"loamcast/facility/material"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// Every built-in facility runs all its replications over its whole horizon
// with a ledger that closes to 1e-9 of throughput for every component, store
// and year; and it does what a compost plant does.
func TestBuiltInFacilitiesBalance(t *testing.T) {
	if testing.Short() {
		t.Skip("runs sixty replications of twenty years; .ci/run has it without -short")
	}
	for _, name := range examples.Names() {
		t.Run(name, func(t *testing.T) {
			f, err := facilityfile.Parse(name, examples.Data(name))
			if err != nil {
				t.Fatal(err)
			}
			a, err := ask(t.Context(), f, 0, answer.Setup{Source: name})
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("worst residual of %d replications: %.1g (%s)", a.Replications, a.Balance.Worst, a.Balance.WorstAt)
			if !(a.Balance.Worst <= material.Tolerance) {
				t.Errorf("residual %g at %s", a.Balance.Worst, a.Balance.WorstAt)
			}
			if len(a.Balance.Components) != material.NumComponents {
				t.Errorf("%d components balanced", len(a.Balance.Components))
			}
			for _, y := range a.Years {
				if y.FeedDry.P10 <= 0 || y.ProductVolume.P10 <= 0 || y.ChipsRecovered.P10 <= y.ChipsBought.P50 {
					t.Errorf("%s: feed %v, product %v, chips recovered %v, bought %v", y.Label, y.FeedDry, y.ProductVolume, y.ChipsRecovered, y.ChipsBought)
				}
			}
		})
	}
}
