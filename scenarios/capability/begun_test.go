package capability

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

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
		if got := Begun(months, facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3}); got != c.want {
			t.Errorf("%s: begins in quarter %d, by hand %d", c.name, got, c.want)
		}
	}
}
