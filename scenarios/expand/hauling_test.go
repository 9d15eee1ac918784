package expand

import (
	"context"
	"math"
	"testing"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
)

// The search knows about what contracts cost before whole plans are simulated: what the
// program says of each plan is near to the mean of its whole runs, as it is for what is
// built. On this plant a contract hauls some 7 % of all that comes, a seventh of the costs.
func TestSearchKnowsWhatContractsCost(t *testing.T) {
	f, err := facilityfile.Open("../facilityfile/testdata/contract.yaml")
	if err != nil {
		t.Fatal(err)
	}
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	found, err := find(context.Background(), s, answer.Setup{}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, w := range found.chosen.plans {
		p, err := found.planOf(context.Background(), w, w, found.through)
		if err != nil {
			t.Fatal(err)
		}
		program := found.running + w.cost
		t.Logf("%.0f by the program, %.0f by %d runs; %.1f %% by contract", program, p.Present.Estimate, p.Replications, 100*p.ContractShare)
		if math.Abs(program-p.Present.Estimate) > 0.04*p.Present.Estimate {
			t.Errorf("%+v cost %.0f by the program and %.0f by their runs", p.Steps, program, p.Present.Estimate)
		}
		if p.ContractShare < 0.03 || costs.ByContract(p.Contract, p.ContractShare).Empty() {
			t.Errorf("%+v haul %.3f by contract", p.Steps, p.ContractShare)
		}
	}
}
