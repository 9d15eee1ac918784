package money

import (
	"math"
	"testing"
)

// Shows the monitoring frequency of 40 CFR 503.16, Table 1 (read): 0 to 290 dry
// metric tons a year once, to 1,500 four, to 15,000 six, then twelve times, each
// lower bound inclusive.
func TestMonitoringEvents(t *testing.T) {
	for _, c := range []struct {
		tonnes float64
		want   int
	}{
		{0, 0}, {-1, 0}, {math.NaN(), 0},
		{0.001, 1}, {289.999, 1},
		{290, 4}, {1499.999, 4},
		{1500, 6}, {14_999.999, 6},
		{15_000, 12}, {1e6, 12}, {math.Inf(1), 12},
	} {
		if got := MonitoringEvents(1000 * c.tonnes); got != c.want {
			t.Errorf("%g t dry a year: %d events, want %d", c.tonnes, got, c.want)
		}
	}
}
