package costs

import (
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
)

// Proves what amendments cost: what is bought and what comes from own sources, each at
// its price; what is used at the price of where it came from, or at the dearer of the
// two where that is not told apart; and that it counts in full among chips, rising with
// inflation. By hand: 10 m3 at 8 USD and 20 m3 at 3 USD are 140 USD; 25 m3 used are 200
// USD; in the year after the one of the prices, at 2 % inflation, 140 USD cost 142.80.
func TestWhatAmendmentsCost(t *testing.T) {
	e := &facilityfile.Economy{Amendments: []facilityfile.AmendmentPrice{{Bought: 8, Own: 3}, {}}}
	month := func(bought, own, used float64) *plant.Month {
		return &plant.Month{Amendments: []plant.MonthlyAmendment{{Bought: bought, Own: own, Used: used}, {Used: 7}}}
	}
	for _, c := range []struct{ got, want float64 }{
		{Amendments(month(10, 20, 25), e), 140},
		{AmendmentsUsed(month(10, 20, 25), e), 200},
		{AmendmentsUsed(month(0, 20, 25), e), 75},
		{AmendmentsUsed(month(10, 0, 25), e), 200},
		{Amendments(&plant.Month{}, e), 0},
	} {
		if c.got != c.want {
			t.Errorf("%g USD, by hand %g", c.got, c.want)
		}
	}
	rates := money.Rates{Stated: 2027, Start: 2027, Escalation: 0.02}
	flow := money.Flow{Amount: 140, At: 1, Escalation: rates.General(1).Escalation}
	if got := rates.Nominal(flow); got < 142.8-1e-9 || got > 142.8+1e-9 {
		t.Errorf("%g USD, by hand 142.80", got)
	}
}
