package plant

import (
	"math"
	"testing"

	"loamcast/sim/random"
)

// Every hour that solids wait is charged to one cause: the causes sum to the
// time waited that the stations measure by themselves, stay by stay.
func TestCausesSumToTheTimeWaited(t *testing.T) {
	short := noisy(t)
	short.Feed.Base = 900 // more than the vessels take
	full := noisy(t)
	full.Product.Demand = repeat12(0.5)
	full.Curing.Capacity = 300
	dry := noisy(t)
	dry.Chips.LeadTime *= 10
	for name, m := range map[string]Model{"noisy": noisy(t), "short of vessels": short, "product store full": full, "short of chips": dry} {
		m.WarmUp = 0
		rec := mustRun(t, m, random.Key{Seed: 5})
		var charged Waits
		for _, month := range rec.Months {
			for c, v := range month.Waits {
				charged[c] += v
			}
		}
		measured := rec.Waited
		t.Logf("%s: %.1f kg·d waited; by cause %.1f", name, measured, charged)
		// 1e-6 h of one kilogram, in kg·d, and rounding of the sums.
		if tolerance := 1e-6/24 + 1e-12*measured; math.Abs(charged.Total()-measured) > tolerance {
			t.Errorf("%s: causes sum to %.12g kg·d, %.12g waited", name, charged.Total(), measured)
		}
	}
}
