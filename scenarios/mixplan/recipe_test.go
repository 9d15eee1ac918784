package mixplan

import (
	"strings"
	"testing"
	"time"

	"loamcast/facility/recycle"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
)

// designedFile is the demo with a designed recipe that may hold sawdust.
func designedFile(t *testing.T, targets string) *facilityfile.File {
	t.Helper()
	text := strings.Replace(string(examples.Data(examples.Demo)), "mix:\n", `mix:
  recipe: designed
  amendments:
    - material: sawdust
      store: 60 yd3
      bought: {reorder_at: 25 yd3, order_up_to: 60 yd3, truckload: 30 yd3, lead_time: 6 day}
`, 1)
	if targets != "" {
		text = strings.Replace(text, "  targets:\n", "  targets:\n"+targets, 1)
	}
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Proves that a designed recipe is that of `mix` in each month: the load that a run
// mixes by it, in the steady loop, meets the file's targets in every month whose design
// does, and uses what the design of the month uses. A file that does not ask for it
// keeps its ratio.
func TestDesignedRecipeMeetsTheTargets(t *testing.T) {
	f := designedFile(t, "")
	r, err := Apply(t.Context(), f, 0)
	if err != nil {
		t.Fatal(err)
	}
	if r == nil || f.Model.Recipe.ChipsByMonth == nil {
		t.Fatal("no recipe was designed")
	}
	if err := f.Model.Validate(); err != nil {
		t.Fatal(err)
	}
	missed := map[time.Month]bool{}
	for _, m := range r.Missed {
		missed[m] = true
	}
	for _, month := range []time.Month{time.January, time.May, time.September} {
		s, err := recycle.New(&f.Model, month).Steady(t.Context(), recycle.AsRun(&f.Model, month))
		if err != nil {
			t.Fatal(err)
		}
		target, ratio := f.Mix.Targets, s.Load.CarbonToNitrogen()
		t.Logf("%v: chips %.3g, sawdust %.3g; C:N %.4g, solids %.4g, free air space %.3g", month, r.Chips[month-1],
			f.Model.Amendments[0].PerCake[month-1], ratio, s.Load.SolidsContent(), f.Model.Bulk.FreeAirSpace(s.Load))
		if missed[month] {
			continue
		}
		const slack = 2e-3 // of the search for the steady design
		if ratio < target.CarbonToNitrogen.Low*(1-slack) || ratio > target.CarbonToNitrogen.High*(1+slack) ||
			s.Load.SolidsContent() < target.Solids.Low*(1-slack) || f.Model.Bulk.FreeAirSpace(s.Load) < target.FreeAirSpace*(1-slack) {
			t.Errorf("%v: the load as run misses what it is designed for", month)
		}
	}
	plain, err := facilityfile.Parse("plant.yaml", examples.Data(examples.Demo))
	if err != nil {
		t.Fatal(err)
	}
	if r, err := Apply(t.Context(), plain, 0); r != nil || err != nil || plain.Model.Recipe.ChipsByMonth != nil {
		t.Errorf("a file that writes its ratio got %v, %v", r, err)
	}
}
