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
// events asked for beforehand, by other events, and between two runs.
func TestAgendaAgainstSearch(t *testing.T) {
	type asked struct {
		at       Time
		priority Priority
		number   int
	}
	rapid.Check(t, func(t *rapid.T) {
		k := NewKernel(testStart, 0)
		defer k.Close()
		var pending []asked
		number := 0
		var ask func(depth int)
		ask = func(depth int) {
			for range rapid.IntRange(0, 6).Draw(t, "events") {
				number++
				e := asked{
					at:       k.Now() + Time(rapid.IntRange(0, 5).Draw(t, "delay")),
					priority: rapid.SampledFrom([]Priority{Early, Normal, Normal, Late}).Draw(t, "priority"),
					number:   number,
				}
				pending = append(pending, e)
				handle := k.AtPriority(e.at, e.priority, "", func() {
					first := slices.MinFunc(pending, func(a, b asked) int {
						return cmp.Or(cmp.Compare(a.at, b.at), cmp.Compare(a.priority, b.priority), cmp.Compare(a.number, b.number))
					})
					if e != first || k.Now() != e.at {
						t.Fatalf("%+v happened at %d, want %+v", e, k.Now(), first)
					}
					pending = slices.DeleteFunc(pending, func(a asked) bool { return a == e })
					if depth < 3 {
						ask(depth + 1)
					}
				})
				if rapid.IntRange(0, 3).Draw(t, "kept") == 0 {
					handle.Cancel()
					pending = pending[:len(pending)-1]
				}
			}
		}
		for _, span := range []Time{3, 3, 100} {
			ask(0)
			until := k.Now() + span
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
