package simulate_test

import "loamcast/facility/plant"

// withContract gives the small file a contract from the start, and withContractLater one
// that a change brings.
var (
	withContract      = []string{"\nchips:\n", "\nhauling_contract: {most_per_month: 4 t, most_per_day: 1 t, notice: 3 day, call_at: 60 %, down_to: 30 %}\n\nchips:\n"}
	withContractLater = []string{"\nchips:\n", "\nchanges: [{name: taker, date: 2027-03-01, contract: {most_per_month: 4 t, most_per_day: 1 t, notice: 3 day, call_at: 60 %, down_to: 30 %}}]\n\nchips:\n"}
)

var hauled = total("hauled by contract", func(m *plant.Month) float64 { return m.Holding.ContractWet })

// contracts are the keys of both.
var contracts = append(contractOptions("hauling_contract", withContract), contractOptions("changes.contract", withContractLater)...)

func contractOptions(at string, base []string) []option {
	return []option{
		{key: at + ".most_per_month", old: "most_per_month: 4 t", new: "most_per_month: 8 t", moves: up(hauled), base: base},
		{key: at + ".most_per_day", old: "most_per_day: 1 t", new: "most_per_day: 0.1 t", moves: down(hauled), base: base},
		{key: at + ".notice", old: "notice: 3 day", new: "notice: 25 day", base: base},
		{key: at + ".call_at", old: "call_at: 60 %", new: "call_at: 95 %", moves: down(hauled), base: base},
		{key: at + ".down_to", old: "down_to: 30 %", new: "down_to: 55 %", base: base},
		{key: at, old: "most_per_month: 4 t", new: "most_per_month: 12 t", moves: down(diverted), base: base},
	}
}
