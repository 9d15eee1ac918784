package vesselplan_test

import (
	"context"
	"flag"
	"strings"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

var vainSeeds = flag.Int("vain.seeds", 1, "seeds with which a plant is asked that more vessels do not help")

// Where cake that is wetter than is thought makes loads fail, however little comes, more
// vessels are told not to help, with every seed; what is short is named, and the range of
// the share that misses holds that of whole runs in years in which production does not
// matter yet. Before such a background was looked for, four, two or no vessels were told to
// be ordered, by seed.
//
// More closely: go test ./scenarios/vesselplan -run VesselsInVain -v -vain.seeds 10 -brute.runs 400
func TestVesselsInVain(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates some two thousand years of wet loads; the round without -short has it")
	}
	for seed := range uint64(*vainSeeds) {
		f, err := facilityfile.Open("testdata/wet-loads.yaml")
		if err != nil {
			t.Fatal(err)
		}
		f.Seed = seed + 1
		s, err := study.New(f, 0)
		if err != nil {
			t.Fatal(err)
		}
		a, err := vesselplan.Ask(context.Background(), s, answer.Setup{}, vesselplan.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if got := a.Advice(&a.All); got != vesselplan.NoHelp {
			t.Errorf("seed %d: advice %d", f.Seed, got)
		}
		rows := a.All.Rows
		if len(rows) != 2 || rows[1].Vessels != f.Planning.RoomFor || !rows[1].Limit.Failing {
			t.Errorf("seed %d: %d rows, the last of %d vessels, short of %s", f.Seed, len(rows), rows[len(rows)-1].Vessels, rows[len(rows)-1].Limit)
		}
		const early = 3 // years
		missed, n := wholeRuns(t, s, vesselplan.MainGrowth(&f.Planning), early, *bruteRuns), *bruteRuns
		background := a.Capability[0].Background
		least, most := counts(background, n)
		for year, got := range missed {
			if got < least || got > most {
				t.Errorf("seed %d: %d of %d whole runs miss year %d; %.3f (%.3f to %.3f) is told of every year", f.Seed, got, n, year, background.Estimate, background.Low, background.High)
			}
		}
		t.Logf("seed %d: %v of %d whole runs miss; told %.3f (%.3f to %.3f)", f.Seed, missed, n, background.Estimate, background.Low, background.High)
		if said := a.Whatever().Plain(units.US); !strings.HasPrefix(said, "However little comes in, ") {
			t.Errorf("%q", said)
		}
	}
}
