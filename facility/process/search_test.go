package process

import (
	"testing"

	"pgregory.net/rapid"
)

// Shows that the search for a criterion's moment gets on where rounding leaves the
// start of the window just before the piece that it has reached: 0.1 + 72 − 72 is
// less than 0.1 to the last bit. Each piece takes a slide, and another with rounding,
// so that 2·n slides bring it to the end of n pieces; without the step for rounding
// it stays where it is (derived).
func TestSearchPassesAPieceReachedToTheLastBit(t *testing.T) {
	tr := newTracker(Criterion{Name: "hold with a peak", Kind: HoldWithPeak, Temperature: 40, Hours: 72, Peak: 55, PeakHours: 4})
	first := 0.1
	if start := first + tr.c.Hours - tr.c.Hours; start >= first {
		t.Fatalf("rounding spares this case: the window starts at %v", start)
	}
	tr.stretch = []piece{{}, {start: first}} // without a moment above the peak
	tr.length = 100
	if slides, ok := slidesToTheEnd(tr, tr.c.Hours); !ok {
		t.Errorf("not at the end of two pieces after %d slides", slides)
	}
}

// Shows for stretches of any pieces that the search ends after two slides for
// each, at most.
func TestSearchEndsWithItsPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		hours := rapid.Float64Range(0.5, 400).Draw(t, "window, h")
		tr := newTracker(Criterion{Name: "hold with a peak", Kind: HoldWithPeak, Temperature: 40, Hours: hours, Peak: 55, PeakHours: hours})
		for _, h := range rapid.SliceOfN(rapid.Float64Range(1e-3, 50), 1, 60).Draw(t, "pieces, h") {
			tr.stretch = append(tr.stretch, piece{start: tr.length})
			tr.length += h
		}
		if slides, ok := slidesToTheEnd(tr, min(hours, tr.length)); !ok {
			t.Fatalf("not at the end of %d pieces after %d slides", len(tr.stretch), slides)
		}
	})
}

// slidesToTheEnd slides a window from a moment to the end of the stretch, and
// gives up after two slides for each piece.
func slidesToTheEnd(t *tracker, at float64) (slides int, ok bool) {
	w := window{at, t.carried(at)}
	for ; w.end < t.length; slides++ {
		if slides == 2*len(t.stretch) {
			return slides, false
		}
		w = t.slide(w)
	}
	return slides, true
}
