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
		charged := waits(rec, len(rec.Months))
		t.Logf("%s: %.1f kg·d waited; by cause %.1f", name, rec.Waited, charged)
		if !allCharged(rec) {
			t.Errorf("%s: causes sum to %.12g kg·d, %.12g waited", name, charged.Total(), rec.Waited)
		}
	}
}

// allCharged reports whether a run without warm-up charged all waiting: to 1e-6 h
// of one kilogram, and the rounding of the sums.
func allCharged(rec *Record) bool {
	return math.Abs(waits(rec, len(rec.Months)).Total()-rec.Waited) <= 1e-6/24+1e-12*rec.Waited
}
