package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
)

// Contract is what was hauled by contract, which does not count as diverted.
type Contract struct {
	ContractDry, ContractWet answer.Spread // kg
	ContractShare            answer.Spread // of the dry solids that came in
	Calls                    answer.Spread
}

// contract is what was hauled by contract in some months.
func (t *tally) contract(out *Contract, months span) {
	t.sum(&out.ContractDry, months, func(m *plant.Month) float64 { return m.Holding.ContractDry })
	t.sum(&out.ContractWet, months, func(m *plant.Month) float64 { return m.Holding.ContractWet })
	t.spread(&out.ContractShare, func(rec *plant.Record) float64 { return plant.ContractShare(months(rec)) })
	t.sum(&out.Calls, months, func(m *plant.Month) float64 { return m.Holding.Calls })
}

// contractColumns are the columns of a file whose plant has a contract.
func contractColumns[T any](a *Answer, of func(*T) *Contract) []doc.Col[T] {
	if !a.Hauls {
		return nil
	}
	return doc.Lift(of,
		doc.Spr("contract_dry", doc.Mass, func(c *Contract) answer.Spread { return c.ContractDry }).Means("solids hauled away by contract", doc.Dry),
		doc.Spr("contract_wet", doc.Mass, func(c *Contract) answer.Spread { return c.ContractWet }).Means("cake hauled away by contract, as weighed", doc.Wet),
		doc.Spr("contract_share", doc.Share, func(c *Contract) answer.Spread { return c.ContractShare }).Means("part of the dry solids that came in which was hauled away by contract"),
		doc.Spr("contract_calls", doc.Count, func(c *Contract) answer.Spread { return c.Calls }).Means("times that the plant called for the contract"))
}

// byContract says what a year hauls by contract.
func (a *Answer) byContract(y *Year) doc.Text {
	if !a.Hauls {
		return doc.Text{}
	}
	return doc.Say(", %s dry hauled by contract (%s wet)", doc.Show(y.ContractDry.P50, doc.Mass), doc.Show(y.ContractWet.P50, doc.Mass))
}

// contractText says how much of what comes leaves by contract.
func (a *Answer) contractText() doc.Text {
	first, last, most := &a.Years[0], a.last(), &a.Years[0]
	for i := range a.Years {
		if y := &a.Years[i]; y.ContractShare.P50 > most.ContractShare.P50 {
			most = y
		}
	}
	share := func(y *Year) doc.Text {
		if y.ContractShare.P50 == 0 {
			return doc.Say("none in %s", y.Label)
		}
		return doc.Say("%s in %s", doc.With(y.ContractShare.P50, doc.Share, 1), y.Label)
	}
	if most.ContractShare.P50 == 0 {
		return doc.Words("By contract next to nothing is hauled in any year in the median run.")
	}
	parts := []doc.Text{share(first)}
	if last != first {
		parts = append(parts, share(last))
	}
	text := doc.Say("By contract leaves, of the dry solids that come: %s", doc.Join(", ", parts...))
	if most != first && most != last {
		text = text.Then("; most, %s", share(most))
	}
	return text.Then(". It does not count against the target, and is not in what is diverted.")
}
