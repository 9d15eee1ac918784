package vesselplan

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// searchFor is a search whose target is that of a handbook: 1 % untreated, 3 days,
// in 90 % of the runs.
func searchFor() *search {
	return &search{
		study:  &study.Study{File: &facilityfile.File{}},
		target: facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3, MissShare: 0.1},
	}
}

// yearOfMonths is a year in which 1,000 kg come each month.
func yearOfMonths() []plant.Month {
	months := make([]plant.Month, 12)
	for i := range months {
		months[i].Feed.Dry = 1000
	}
	return months
}

// Vessels must be there before more runs than the target allows begin to miss it:
// of twenty runs two may, and the third begins in the third quarter.
func TestQuarterByHand(t *testing.T) {
	c := &cell{search: searchFor(), trials: map[int][]capability.Seen{0: make([]capability.Seen, 20)}}
	for i, month := range []int{0, 3, 6, 9, 9} {
		months := yearOfMonths()
		months[month].Holding.DivertedDry = 500
		c.trials[0][i] = capability.SeenOf(months, c.target)
	}
	if got := c.quarter(0); got != 2 {
		t.Errorf("quarter %d, by hand 2", got)
	}
}
