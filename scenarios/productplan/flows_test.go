package productplan

import (
	"testing"

	"loamcast/scenarios/fiscal"
)

// The store of a year ends as its last month does, and was as full as in its
// fullest.
func TestStoreOfAYear(t *testing.T) {
	run := make([]facts, 12)
	for i := range run {
		run[i].end, run[i].peak, run[i].taken = float64(20-i), float64(30-i), 2
	}
	var f Flows
	tally := fiscal.NewTally[facts](1)
	flows(tally, &f, fiscal.InYear[facts](0))
	tally.Add(run)
	tally.Close()
	if f.StoreEnd.P50 != 9 || f.StorePeak.P50 != 30 || f.Taken.P50 != 24 {
		t.Errorf("ends with %g, at most %g, taken %g", f.StoreEnd.P50, f.StorePeak.P50, f.Taken.P50)
	}
}
