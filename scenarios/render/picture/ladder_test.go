package picture

import (
	"math"
	"testing"

	"loamcast/scenarios/document"
	"loamcast/scenarios/units"
)

// The axis of a ladder holds every bar and interval, and zero.
func TestLadderReach(t *testing.T) {
	for _, c := range []struct {
		rung      document.Rung
		low, high float64
	}{
		{document.Rung{Bars: []document.Span{{From: 0, To: 3e6}, {From: 3e6, To: 7.9e6}}}, 0, 8},
		{document.Rung{Bars: []document.Span{{From: 0, To: -0.3e6}}, Dots: []document.Dot{{At: 0.5e6, Low: 0.2e6, High: 0.7e6}}}, -0.4, 0.8},
		{document.Rung{Dots: []document.Dot{{At: 2e6, Low: 1e6, High: 2.4e6}}}, 0, 2.5},
		{document.Rung{Dots: []document.Dot{{}}}, 0, 1}, // nothing differs
	} {
		l := ladder{Ladder: &document.Ladder{Quantity: document.Millions, Rows: []document.Rung{c.rung}}, sys: units.US}
		if low, high := l.reach(); math.Abs(low-c.low) > 1e-9 || math.Abs(high-c.high) > 1e-9 {
			t.Errorf("%+v reaches from %g to %g, want %g to %g", c.rung, low, high, c.low, c.high)
		}
	}
}
