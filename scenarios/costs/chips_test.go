package costs

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// Chips of several sources count by their prices, by hand: in March 100 m3 at the price
// and 40 m3 at 1.5 times it are 160 m3 at the price; what is used of 280 m3 that came as
// 160 + 140 is worth 300/280 of its volume. Of one supplier a m3 is a m3.
func TestChipsCountByTheirPrices(t *testing.T) {
	e := facilityfile.Economy{ChipSources: make([][12]float64, 2)}
	e.ChipSources[0][2], e.ChipSources[1][2], e.ChipSources[0][3] = 1, 1.5, 1
	march := plant.Month{Month: 3, Chips: plant.MonthlyChips{Bought: 100, Own: 40, FreshUsed: 60, Sources: []plant.MonthlyChipSource{{Volume: 100}, {Volume: 40}}}}
	april := plant.Month{Month: 4, Chips: plant.MonthlyChips{Bought: 140, FreshUsed: 70, Biofilter: 10, Sources: []plant.MonthlyChipSource{{Volume: 140}, {}}}}
	one := plant.Month{Month: 3, Chips: plant.MonthlyChips{Bought: 100, FreshUsed: 60, Biofilter: 5}}
	for what, c := range map[string][2]float64{
		"March":          {Chips(&march.Chips, 3, &e), 160},
		"used":           {ChipsUsed([]plant.Month{march, april}, &e), 140 * 300.0 / 280},
		"one supplier":   {Chips(&one.Chips, 3, &e), 100},
		"used of one":    {ChipsUsed([]plant.Month{one}, &e), 65},
		"none that come": {ChipsUsed([]plant.Month{{Month: 3, Chips: plant.MonthlyChips{FreshUsed: 7, Sources: make([]plant.MonthlyChipSource, 2)}}}, &e), 7},
	} {
		if math.Abs(c[0]-c[1]) > 1e-9 {
			t.Errorf("%s: %g, by hand %g", what, c[0], c[1])
		}
	}
}
