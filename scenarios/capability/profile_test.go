package capability

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/threshold"
)

// The profile of years: what leaves untreated rises with production, by the mean of
// neighbours that fall, and beyond what was tried so much is treated as at its end.
func TestProfileByHand(t *testing.T) {
	target := facilityfile.Target{DivertedLimit: 0.01, DelayLimit: 3}
	trial := func(load, untreated float64, quarter int) Trial {
		months := make([]plant.Month, 12)
		for i := range months {
			months[i].Feed.Dry = 100
		}
		months[quarter*3].Holding.DivertedDry = untreated * 1200
		return Trial{load, SeenOf(months, target)}
	}
	c := &threshold.Curve{Mean: math.Log(100), Within: 0.1}
	p := newProfile(c, [][]Trial{{trial(90, 0, 0), trial(100, 0.04, 2), trial(105, 0.02, 2), trial(120, 0.2, 1)}})
	if got := p.lostAt(p.at(80)); got != 0 {
		t.Errorf("%g of a light year is lost", got)
	}
	if got := p.lostAt(p.at(math.Sqrt(100 * 105))); math.Abs(got-0.03) > 1e-9 {
		t.Errorf("%g between two years that lose 4 and 2 %%, by hand 3 %%", got)
	}
	if got := p.lostAt(p.at(240)); math.Abs(got-(1-0.8/2)) > 1e-9 {
		t.Errorf("%g of twice the heaviest year, of which 80 %% were treated, by hand 0.6", got)
	}
	if low, high := p.begunBy(p.at(100)), p.begunBy(p.at(130)); !(low[1] < 0.1) || !(high[1] > 0.9) || low[3] != 1 || high[3] != 1 {
		t.Errorf("begun by the second quarter: %v of years near the limit, %v of heavy ones", low, high)
	}
	if w := p.when; math.Abs(w[1]-0.2/0.26) > 1e-9 || w[0] != 0 {
		t.Errorf("what is lost leaves in the parts %v", w)
	}
}
