package simulate

import (
	"slices"

	"loamcast/facility/plant"
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

// triggered returns one Triggered for each change with a trigger, in order.
func (r Runs) triggered() []Triggered {
	var out []Triggered
	for _, c := range r.Plant.Changes {
		if !c.Trigger.Waits() {
			continue
		}
		days := daysOf(c.Name, r.Records)
		t := Triggered{Change: c.Name, Share: float64(len(days)) / float64(len(r.Records))}
		if len(days) > 0 {
			t.Decided = days[(len(days)-1)/2]
		}
		out = append(out, t)
	}
	return out
}

// daysOf returns the days on which a change was decided, in order.
func daysOf(change string, records []*plant.Record) []calendar.Date {
	var days []calendar.Date
	for _, rec := range records {
		for _, t := range rec.Triggered {
			if t.Change == change {
				days = append(days, t.Decided)
			}
		}
	}
	slices.SortFunc(days, func(a, b calendar.Date) int { return b.DaysUntil(a) })
	return days
}
