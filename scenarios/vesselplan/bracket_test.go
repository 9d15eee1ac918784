package vesselplan

import (
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/stats"
)

// Whatever the guess and however often a quick look is wrong, the bracket closes
// on the boundary: the last year kept, the years too near to tell, the first
// missed. It judges no year twice and needs few judgements where guesses are
// good.
func TestBracketCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		years := rapid.IntRange(1, 40).Draw(t, "years")
		kept := rapid.IntRange(-1, years-1).Draw(t, "last year kept")
		near := rapid.IntRange(0, min(3, years-1-kept)).Draw(t, "too near to tell")
		known := rapid.IntRange(-1, kept).Draw(t, "known to be kept")
		guess := rapid.IntRange(-1, years+3).Draw(t, "guess")
		wrong := rapid.Bool().Draw(t, "quick looks are wrong")
		missed := kept + near + 1
		judged := map[int]int{}
		b := bracket{
			kept: known, missed: years,
			judge: func(year int) (stats.Verdict, error) {
				judged[year]++
				switch {
				case year <= kept:
					return stats.Below, nil
				case year >= missed:
					return stats.Above, nil
				}
				return stats.Undecided, nil
			},
			scout: func(year int) (bool, error) {
				if year < 0 || year >= years {
					t.Fatalf("year %d is outside the horizon", year)
				}
				return (year > kept) != wrong, nil
			},
		}
		if err := b.close(guess); err != nil {
			t.Fatal(err)
		}
		if b.kept != kept || b.missed != missed {
			t.Errorf("kept through %d and missed from %d, not %d and %d", b.kept, b.missed, kept, missed)
		}
		for year, n := range judged {
			if year <= known || year >= years || n != 1 {
				t.Errorf("year %d was judged %d times", year, n)
			}
		}
		if !wrong && len(judged) > 3+near {
			t.Errorf("%d years were judged, though the quick looks were right", len(judged))
		}
	})
}
