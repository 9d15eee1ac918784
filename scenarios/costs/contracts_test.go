package costs

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
)

// Two contracts, one after the other, by hand: 80 USD/t, then 60 USD/t.
//
//	year 1   12 × 20 t of the first:                    240 t × 80 = 19,200 USD
//	year 2   6 × 15 t of the first; 5 t of it and 30 t of the second in the month in which
//	         that takes its place; 5 × 30 t of the second:
//	         95 t × 80 + 180 t × 60 = 7,600 + 10,800 = 18,400 USD
//
// Paid at the end of each year, 1 and 2 years after the prices hold, they rise as tipping does,
// here by 10 % a year, while nothing else rises: 19,200 × 1.1 + 18,400 × 1.21 = 43,384 USD.
// Nothing of it is tipped, or missed.
func TestTwoContractsOneAfterTheOther(t *testing.T) {
	r := smallResult()
	r.Economy.Contracts = []float64{0.08, 0.06}
	r.Economy.Rates.Start = 2027
	r.Economy.Prices.Tipping.Escalation = 0.1
	under := func(number int, tonnes float64) plant.MonthlyContract {
		return plant.MonthlyContract{Number: number, Wet: 1000 * tonnes, Dry: 200 * tonnes}
	}
	for i := range r.Record.Months {
		h := &r.Record.Months[i].Holding
		switch {
		case i < 12:
			h.Contracts = []plant.MonthlyContract{under(0, 20)}
		case i < 18:
			h.Contracts = []plant.MonthlyContract{under(0, 15)}
		case i == 18:
			h.Contracts = []plant.MonthlyContract{under(0, 5), under(1, 30)}
		default:
			h.Contracts = []plant.MonthlyContract{under(1, 30)}
		}
	}
	before := mustPlan(t, &facilityfile.Planning{}, smallResult())
	plan := mustPlan(t, &facilityfile.Planning{}, r)
	for year, want := range []float64{19_200, 18_400} {
		if got := plan.Years[year].Contract; !near(got, want) {
			t.Errorf("year %d: %g USD, by hand %g", year+1, got, want)
		}
		if got, want := plan.Years[year].Tipping, before.Years[year].Tipping; got != want {
			t.Errorf("year %d: %g kg tipped, without contracts %g", year+1, got, want)
		}
	}
	if got := plan.Cost().ByPart[money.Contract]; !near(got, 43_384) {
		t.Errorf("present worth %.2f USD, by hand 43,384", got)
	}
	if text := ByContract(0, 0); !text.Empty() {
		t.Error("nothing hauled is told")
	}
}
