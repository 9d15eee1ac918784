package mixplan

import (
	"testing"

	"loamcast/facility/mix"
)

// The margin of a property is to the nearer of its ends, and any that is below nothing
// is a miss, however small. By hand, asked 0.5 to 0.6.
func TestMarginIsToTheNearerEnd(t *testing.T) {
	for _, c := range []struct {
		design, margin float64
		standing       Standing
	}{{0.52, 0.02, Inside}, {0.59, 0.01, Inside}, {0.499, -0.001, Outside}, {0.601, -0.001, Outside}} {
		p := Property{Name: Moisture, Window: mix.Window{Low: 0.5, High: 0.6}, Design: c.design}
		p.judge(nil)
		if d := p.Margin - c.margin; !(d < 1e-12 && d > -1e-12) || p.Standing() != c.standing {
			t.Errorf("%g: margin %g and %v, want %g and %v", c.design, p.Margin, p.Standing(), c.margin, c.standing)
		}
	}
}
