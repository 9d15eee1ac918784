package capability

import (
	"context"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// Checks are the whole runs, over all growth scenarios by weight, that check what the
// capability says.
const Checks = 24

// Contradicted is why years do not stand for themselves where whole runs contradict.
const Contradicted = "whole runs miss the target earlier than single years do: something fills from year to year"

// doubtful is the chance below which whole runs contradict.
const doubtful = 0.01

// Contradict reports whether so many of some runs miss a year that they would do so by
// chance hardly ever if no greater share than the target allows did.
func Contradict(missed, runs int, limit float64) bool {
	byChance := distuv.Binomial{N: float64(runs), P: limit}
	return missed > 0 && 1-byChance.CDF(float64(missed-1)) < doubtful
}

// Agreed returns after how many of some runs it is sure, if so many have missed a year and
// no other does, that all of them will not contradict.
func Agreed(missed, runs int, limit float64) int {
	n := runs
	for n > 0 && !Contradict(missed+runs-n+1, runs, limit) {
		n--
	}
	return n
}

// Whole is what whole runs say.
type Whole struct {
	Missed int // runs that miss the worst of the years
	// Contract are by year the shares of the dry solids that come which were hauled by
	// contract, in the mean of the runs.
	Contract []float64
}

// WholeRuns simulates a case from the start through some years, which by what the plant
// carries are kept, one replication under each of some growth scenarios, by their places
// in the file.
func WholeRuns(ctx context.Context, s *study.Study, c study.Case, growths []int, years int) (Whole, error) {
	var runs []study.Run
	for i, growth := range growths {
		one := c
		one.Growth, one.Years = growth, years
		runs = append(runs, study.Run{Case: &one, Replication: i})
	}
	type outcome struct {
		missed   []bool
		contract []float64
	}
	found, err := study.Each(ctx, s, runs, func(r *study.Result) (out outcome, err error) {
		for months := range slices.Chunk(r.Record.Months, calendar.MonthsPerYear) {
			out.missed = append(out.missed, s.File.Planning.Target.Missed(months))
			out.contract = append(out.contract, plant.ContractShare(months))
		}
		return out, nil
	}, nil)
	if err != nil {
		return Whole{}, err
	}
	all := Whole{Contract: make([]float64, years)}
	for year := range years {
		n := 0
		for _, run := range found {
			if run.missed[year] {
				n++
			}
			all.Contract[year] += run.contract[year] / float64(len(found))
		}
		all.Missed = max(all.Missed, n)
	}
	return all, nil
}
