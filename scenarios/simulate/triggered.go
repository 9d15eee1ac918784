package simulate

import (
	"maps"
	"slices"

	"loamcast/sim/calendar"
)

// Triggered says how often a change that waits for a trigger came about.
type Triggered struct {
	Change string
	Share  float64 // of the replications
	// Decided is the median of the days on which the trigger came true, over
	// those replications: the earlier of two in the middle; not valid if there
	// are none. The change takes effect a lead time later.
	Decided calendar.Date
}

// triggered is one Triggered for each change with a trigger, in order.
func (t *tally) triggered() {
	for _, c := range t.plant.Changes {
		if !c.Trigger.Waits() {
			continue
		}
		at := len(t.answer.Triggered)
		t.answer.Triggered = append(t.answer.Triggered, Triggered{Change: c.Name})
		came, days := 0, map[calendar.Date]int{} // how often in all, and on each day
		t.Each(func(r *Replication) {
			for _, by := range r.Usual.Triggered {
				if by.Change == c.Name {
					came++
					days[by.Decided]++
				}
			}
		})
		t.Last(func() {
			out := &t.answer.Triggered[at]
			out.Share = float64(came) / float64(t.Runs)
			before := 0
			for _, day := range slices.SortedFunc(maps.Keys(days), func(a, b calendar.Date) int { return b.DaysUntil(a) }) {
				if before += days[day]; before > (came-1)/2 {
					out.Decided = day
					break
				}
			}
		})
	}
}
