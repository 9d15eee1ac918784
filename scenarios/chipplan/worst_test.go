package chipplan

import "testing"

// A rule is judged by its worst year: the store runs short in the second of three
// alone, in every replication, and so its chance is that of certainty.
func TestWorstYear(t *testing.T) {
	h := &history{use: []float64{0, 1, 0, 50, 0, 1}, begins: []int{0, 2, 4, 6}, leads: make([]float64, 9), truckload: 10}
	s := &shelf{histories: []*history{h, h}, streams: 1, truckload: 10}
	if got := s.trial(Rule{Reorder: 10, OrderUpTo: 20}).Inventory.Estimate; got != 1 {
		t.Errorf("the chance is %g", got)
	}
}
