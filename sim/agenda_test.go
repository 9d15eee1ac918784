package sim

import (
	"cmp"
	"context"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Shows that each event that happens is the first, by time, priority and order of
// asking, of those that are pending and not cancelled, and that none is left out:
// events asked for beforehand, by other events, and between two runs, within a day and
// over several.
func TestAgendaAgainstSearch(t *testing.T) {
	type plan struct {
		delay    Time
		priority Priority
		kept     bool
		followed int // number of events that it asks for when it happens
	}
	plans := rapid.Custom(func(t *rapid.T) plan {
		return plan{
			delay:    Time(rapid.IntRange(0, 5).Draw(t, "delay")),
			priority: rapid.SampledFrom([]Priority{Early, Normal, Normal, Late}).Draw(t, "priority"),
			kept:     rapid.IntRange(0, 3).Draw(t, "kept") > 0,
			followed: rapid.IntRange(0, 3).Draw(t, "followed by"),
		}
	})
	type asked struct {
		at       Time
		priority Priority
		number   int
	}
	rapid.Check(t, func(t *rapid.T) {
		k := NewKernel(testStart, 0)
		defer k.Close()
		unit := rapid.SampledFrom([]Time{1, Time(9 * Hour), Time(Day)}).Draw(t, "unit")
		// A few at a time, or more than stand in a row.
		least, atOnce := 1, 5
		if rapid.Bool().Draw(t, "many") {
			least, atOnce = 3*mostNext, 2*mostNext
		}
		all := rapid.SliceOfN(plans, least, 3*mostNext).Draw(t, "events")
		planned := all
		var pending []asked
		var ask func(n int)
		ask = func(n int) {
			for range min(n, len(planned)) {
				p := planned[0]
				planned = planned[1:]
				e := asked{at: k.Now() + p.delay*unit, priority: p.priority, number: len(all) - len(planned)}
				handle := k.AtPriority(e.at, e.priority, "", func() {
					first := slices.MinFunc(pending, func(a, b asked) int {
						return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.priority, b.priority), cmp.Compare(a.number, b.number))
					})
					if e != first || k.Now() != e.at {
						t.Errorf("%+v happened at %d, want %+v", e, k.Now(), first)
					}
					pending = slices.DeleteFunc(pending, func(a asked) bool { return a == e })
					ask(p.followed)
				})
				if p.kept {
					pending = append(pending, e)
				} else {
					handle.Cancel()
				}
			}
		}
		for _, span := range []Time{3, 3, 1000} {
			ask(atOnce)
			until := k.Now() + span*unit
			if err := k.Run(context.Background(), until); err != nil {
				t.Fatal(err)
			}
			for _, e := range pending {
				if e.at < until {
					t.Fatalf("%+v did not happen", e)
				}
			}
		}
	})
}
