package costs

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// Amendments returns what the amendments of a month cost that were bought or came
// from own sources, USD in stated prices.
func Amendments(m *plant.Month, e *facilityfile.Economy) float64 {
	sum := 0.0
	for i := range m.Amendments {
		sum += Amendment(&m.Amendments[i], e.Amendments[i])
	}
	return sum
}

// Amendment is Amendments of one of them.
func Amendment(a *plant.MonthlyAmendment, p facilityfile.AmendmentPrice) float64 {
	return a.Bought*p.Bought + a.Own*p.Own
}

// AmendmentsUsed returns what the amendments cost that were mixed in a month, USD in
// stated prices: at the dearer of its two prices what both is bought and comes from
// own sources, since more of it can only be bought.
func AmendmentsUsed(m *plant.Month, e *facilityfile.Economy) float64 {
	sum := 0.0
	for i := range m.Amendments {
		p := e.Amendments[i]
		switch a := &m.Amendments[i]; {
		case a.Bought == 0 && a.Own > 0:
			sum += a.Used * p.Own
		case a.Own == 0 && a.Bought > 0:
			sum += a.Used * p.Bought
		default:
			sum += a.Used * max(p.Bought, p.Own)
		}
	}
	return sum
}
