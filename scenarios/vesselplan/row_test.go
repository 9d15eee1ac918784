package vesselplan

import (
	"testing"

	"loamcast/facility/plant"
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

// A missed year begins to be missed with a tenth of what it allows, 12 of 120 kg or
// 3,600 of 36,000 kg × days here, and only by what it misses the target with.
func TestBegunByHand(t *testing.T) {
	for _, c := range []struct {
		name  string
		alter func([]plant.Month)
		want  int
	}{
		{"untreated from April on", func(m []plant.Month) { m[3].Holding.DivertedDry, m[11].Holding.DivertedDry = 13, 500 }, 1},
		{"too little in April", func(m []plant.Month) { m[3].Holding.DivertedDry, m[11].Holding.DivertedDry = 11, 500 }, 3},
		{"failed loads count", func(m []plant.Month) { m[0].Release.FailedCakeDry, m[11].Holding.DivertedDry = 13, 500 }, 0},
		{"waits from July on", func(m []plant.Month) { m[6].Holding.Delayed, m[11].Holding.Delayed = 3_700, 40_000 }, 2},
		{"solids that the year may lose", func(m []plant.Month) { m[0].Holding.DivertedDry, m[9].Holding.Delayed = 100, 40_000 }, 3},
	} {
		months := yearOfMonths()
		c.alter(months)
		if got := begun(months, searchFor().target); got != c.want {
			t.Errorf("%s: begins in quarter %d, by hand %d", c.name, got, c.want)
		}
	}
}

// Vessels must be there before more runs than the target allows begin to miss it:
// of twenty runs two may, and the third begins in the third quarter.
func TestQuarterByHand(t *testing.T) {
	c := &cell{search: searchFor(), trials: map[int][]trial{0: make([]trial, 20)}}
	for i, month := range []int{0, 3, 6, 9, 9} {
		months := yearOfMonths()
		months[month].Holding.DivertedDry = 500
		c.trials[0][i] = trial{missed: true, months: months}
	}
	if got := c.quarter(0); got != 2 {
		t.Errorf("quarter %d, by hand 2", got)
	}
}

// What is short is what solids wait longer for in the months that go wrong, not
// what they wait for always, nor for a load to come together.
func TestShortByHand(t *testing.T) {
	months := yearOfMonths()
	for i := range months {
		months[i].Waits[plant.NoVessel] = 3000
	}
	months[5].Holding.DivertedDry = 200
	months[5].Waits[plant.NoCuringSpace] = 2000
	months[5].Waits[plant.Collecting] = 9000
	if got := limit([][]plant.Month{months}, searchFor().target); got != plant.NoCuringSpace {
		t.Errorf("short of %v, by hand %v", got, plant.NoCuringSpace)
	}
}
