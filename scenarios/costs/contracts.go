package costs

import (
	"loamcast/facility/plant"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
)

// Contracts returns what the cake of a month cost that was hauled by contract, USD in
// stated prices: under each contract at its own price, also where one took the place of
// another within the month.
func Contracts(m *plant.Month, e *facilityfile.Economy) float64 {
	sum := 0.0
	for _, c := range m.Holding.Contracts {
		sum += c.Wet * e.Contracts[c.Number]
	}
	return sum
}

// ByContract says what leaves by contract, kg dry over the horizon, and which share of
// what comes that is: a target that is kept so is not kept by composting alone. It is
// empty where nothing leaves so.
func ByContract(dry, share float64) doc.Text {
	if dry <= 0 {
		return doc.Text{}
	}
	return doc.Say(" Over the horizon %s of dry solids, %s of all, leave by contract as they came, which does not count against the target.", doc.Show(dry, doc.Mass), doc.With(share, doc.Share, 1))
}
