package vesselplan_test

import (
	"context"
	"flag"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/stats"
)

var (
	bruteRuns  = flag.Int("brute.runs", 40, "whole runs of each growth scenario that the shares by year are held against")
	bruteYears = flag.Int("brute.years", 0, "years of the horizon to simulate; 0 for those to two after the first that is missed")
	brutePlant = flag.String("brute.plant", examples.Demo, "a built-in facility, or the path of a file, of which they are")
)

// The share of runs that miss each year, which follows from what the plant carries, is
// that of whole runs from the first day of the horizon on, each with its own draw of
// what is uncertain, for every growth scenario and over all by weight. The whole runs
// are replications that the answer has not met. A count may differ by what chance does
// once in a thousand from either end of the answer's range.
//
// More closely: go test ./scenarios/vesselplan -run SharesAgainstWholeRuns -v -brute.runs 400
func TestSharesAgainstWholeRuns(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short")
	}
	f := named(t, *brutePlant)
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	a, err := vesselplan.Ask(context.Background(), s, answer.Setup{}, vesselplan.Options{UpTo: f.Model.Vessels.Installed})
	if err != nil {
		t.Fatal(err)
	}
	if a.Calendar != "" {
		t.Fatalf("years of the calendar were simulated, because %s", a.Calendar)
	}
	years := min(a.Horizon, a.All.Rows[0].FirstMissed+3)
	if *bruteYears > 0 {
		years = min(a.Horizon, *bruteYears)
	}
	all := make([]float64, years)
	for g, growth := range f.Planning.Growths {
		missed := wholeRuns(t, s, g, years, *bruteRuns)
		for y, n := range missed {
			told := a.Growths[g].Rows[0].Shares[y]
			all[y] += growth.Weight * float64(n) / float64(*bruteRuns)
			if least, most := counts(told, *bruteRuns); n < least || n > most {
				t.Errorf("%s, %s: %d of %d whole runs miss it; %.3f (%.3f to %.3f) is told", growth.Name, a.Label(y), n, *bruteRuns, told.Estimate, told.Low, told.High)
			}
		}
		t.Logf("%-12s of %d whole runs miss %v; told %.3f", growth.Name, *bruteRuns, missed, estimates(a.Growths[g].Rows[0].Shares[:years]))
	}
	t.Logf("all by weight: %.3f of the whole runs; told %.3f", all, estimates(a.All.Rows[0].Shares[:years]))
}

// named reads a built-in facility, or the file of a path.
func named(t *testing.T, plant string) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open(plant)
	if examples.Has(plant) {
		f, err = facilityfile.Parse(plant, examples.Data(plant))
	}
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// wholeRuns counts the runs under a growth scenario that miss each of the first years.
func wholeRuns(t *testing.T, s *study.Study, growth, years, n int) []int {
	t.Helper()
	const unmet = 10000 // the first of the replications
	c := study.Case{Growth: growth, Years: years}
	found, err := study.Each(context.Background(), s, study.Runs(&c, unmet, n), func(r *study.Result) ([]bool, error) {
		var missed []bool
		for months := range slices.Chunk(r.Record.Months, 12) {
			missed = append(missed, s.File.Planning.Target.Missed(months))
		}
		return missed, nil
	}, nil)
	if err != nil {
		t.Fatal(err)
	}
	out := make([]int, years)
	for _, run := range found {
		for y, missed := range run {
			if missed {
				out[y]++
			}
		}
	}
	return out
}

// counts are those that may be of n runs, of each of which a share in a range misses.
func counts(share stats.Interval, n int) (least, most int) {
	const rare = 0.0005 // to either side
	low, high := distuv.Binomial{N: float64(n), P: share.Low}, distuv.Binomial{N: float64(n), P: share.High}
	for least < n && low.CDF(float64(least)) < rare {
		least++
	}
	for most < n && 1-high.CDF(float64(most)) > rare {
		most++
	}
	return least, most
}

func estimates(shares []stats.Interval) []float64 {
	out := make([]float64, len(shares))
	for i, s := range shares {
		out[i] = s.Estimate
	}
	return out
}
