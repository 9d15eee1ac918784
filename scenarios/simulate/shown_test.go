package simulate

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// missedFrom makes years that miss the target from one on.
func missedFrom(count, missed int) *Answer {
	a := &Answer{Years: make([]Year, count)}
	for i := missed; i < count; i++ {
		a.Years[i].MissesTarget = 1
	}
	return a
}

// The years of twenty that are shown, worked out by hand: even steps, and the
// first missed in place of the nearest. The ranks take the closest neighbours
// first, the later of two alike.
func TestShownYearsByHand(t *testing.T) {
	want := []shownYear{{0, 0}, {3, 6}, {5, 4}, {8, 7}, {10, 0}, {14, 5}, {16, 8}, {19, 0}}
	if got := missedFrom(20, 10).shownYears(); !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// However many are left out by their rank, the years stay in order without
// repeats, are as many as there is room for, and hold the first, the last and the
// first to miss the service target.
func TestShownYears(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(1, 40).Draw(t, "years")
		missed := rapid.IntRange(0, 45).Draw(t, "first missed")
		shown := missedFrom(count, missed).shownYears()
		if len(shown) != min(mostShown, count) {
			t.Fatalf("%d years shown of %d", len(shown), count)
		}
		for n := len(shown); ; n-- {
			holds := func(place int) bool {
				return slices.ContainsFunc(shown, func(y shownYear) bool { return y.place == place })
			}
			if !slices.IsSortedFunc(shown, func(a, b shownYear) int { return a.place - b.place }) {
				t.Fatalf("out of order: %v", shown)
			}
			for i := 1; i < n; i++ {
				if shown[i].place == shown[i-1].place {
					t.Fatalf("a year is there twice: %v", shown)
				}
			}
			if !holds(0) || !holds(count-1) || missed < count && !holds(missed) {
				t.Fatalf("the first, the last or the first missed, %d, is gone: %v", missed, shown)
			}
			if n <= leastShown {
				return
			}
			worst := slices.MaxFunc(shown, func(a, b shownYear) int { return a.rank - b.rank })
			if worst.rank == 0 {
				t.Fatalf("none of %v may be left out", shown)
			}
			shown = slices.DeleteFunc(slices.Clone(shown), func(y shownYear) bool { return y == worst })
			if len(shown) != n-1 {
				t.Fatalf("two years share a rank: %v", shown)
			}
		}
	})
}
