package capability

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// What years haul is read between those tried in a straight line, by hand: 36,525 kg dry,
// of 500 USD, at 1,000 kg a day and 73,050, of 900, at 1,200. At 1,100 half way between;
// at 1,300 as at 1,200, for a contract has its limit; at 950, 50 a day less, which are
// 18,262.5 kg and so half of what is hauled at 1,000; at 890 nothing, for 110 a day are
// more than the 100 that it was.
func TestHaulingByProduction(t *testing.T) {
	year := func(load, dry, usd float64) Trial {
		months := make([]plant.Month, 12)
		for i := range months {
			months[i].Holding.ContractDry, months[i].Holding.ContractWet = dry/12, usd/12
		}
		return Trial{load, SeenOf(months, facilityfile.Target{})}
	}
	found := &Capability{Runs: [][]Trial{{year(1200, 73_050, 900)}, {year(1000, 36_525, 500)}}}
	h := found.Hauling(func(m *plant.Month) float64 { return m.Holding.ContractWet })
	for _, c := range []struct{ load, usd float64 }{
		{1100, 700}, {1300, 900}, {950, 250}, {890, 0}, {1000, 500},
	} {
		d := Demand{newYear(c.load, []float64{c.load})}
		if usd := h.Of(d, 0); math.Abs(usd-c.usd) > 1e-9 {
			t.Errorf("at %g kg a day %g USD, by hand %g", c.load, usd, c.usd)
		}
	}
	both := Demand{newYear(1000, []float64{890, 1100})}
	if got := h.Of(both, 0); math.Abs(got-350) > 1e-9 {
		t.Errorf("of two productions %g USD, by hand 350", got)
	}
	if (&Capability{Runs: [][]Trial{{year(1000, 0, 0)}}}).Hauling(func(*plant.Month) float64 { return 1 }) != nil {
		t.Error("years that haul nothing tell what is hauled")
	}
}
