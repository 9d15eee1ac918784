package mixplan

import (
	"math"
	"strings"
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/facility/recycle"
	"loamcast/scenarios/cache"
	"loamcast/scenarios/examples"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/digest"
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
	r, err := Apply(t.Context(), f, 0, nil)
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
	if r, err := Apply(t.Context(), plain, 0, nil); r != nil || err != nil || plain.Model.Recipe.ChipsByMonth != nil {
		t.Errorf("a file that writes its ratio got %v, %v", r, err)
	}
}

// Proves that the design of a recipe takes recovered chips as a run does, as far as they go,
// also where they come back so wet that a mix without them were nearer to the targets: the
// search for it comes to rest, and the load that a run mixes by it is the designed one.
func TestDesignedRecipeTakesChipsAsARunDoes(t *testing.T) {
	text := string(examples.Data(examples.Demo))
	for _, change := range [][2]string{
		{"solids: {at_least: 35 %}", "solids: {at_least: 48 %}"},
		{"chips_to_cake: {at_least: 2, at_most: 4}", "chips_to_cake: {at_least: 2, at_most: 9}"},
		{"wet_lots: dry first", "wet_lots: screen anyway"}, // chips come back wet
		{"dry_enough: 48 %", ""},
	} {
		if !strings.Contains(text, change[0]) {
			t.Fatalf("the demo has no %q", change[0])
		}
		text = strings.Replace(text, change[0], change[1], 1)
	}
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	f.Mix.Amendments, f.Mix.Designed = nil, true
	d, err := newDesigner(f, 0, time.January, 0).run(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	if taken, back := d.result.Mass[2], d.design.Materials[2].Available; taken < back*(1-1e-6) {
		t.Errorf("%g of %g kg of recovered chips are taken", taken, back)
	}
	run, err := d.Steady(t.Context(), recycle.Recipe{Chips: d.best().Chips, MostRecovered: math.Inf(1)})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%.3g m3 of chips, %.4g of the mix is solids, as run %.4g", d.best().Chips, 1-d.result.Moisture, run.Load.SolidsContent())
	if off := run.Load.SolidsContent() - (1 - d.result.Moisture); !d.settled() || math.Abs(off) > 1e-4 {
		t.Errorf("settled %v; solids as run are %g above those of the design", d.settled(), off)
	}
}

// counting is a memory that counts what it is asked for.
type counting struct {
	*cache.Designs
	made int
}

func (c *counting) Keep(of digest.Sum, what any) {
	c.made++
	c.Designs.Keep(of, what)
}

// Proves that a recipe is designed once for all files whose loads are alike, whatever comes
// in, is built, held and asked for, and anew for any whose loads differ; and that what is
// remembered is what is designed.
func TestRecipesAreRemembered(t *testing.T) {
	known := &counting{Designs: cache.MemoryOnly()}
	recipe := func(change func(f *facilityfile.File)) *facilityfile.File {
		t.Helper()
		f := designedFile(t, "")
		change(f)
		if _, err := Apply(t.Context(), f, 0, known); err != nil {
			t.Fatal(err)
		}
		return f
	}
	same := func(a, b *facilityfile.File) bool {
		return *a.Model.Recipe.ChipsByMonth == *b.Model.Recipe.ChipsByMonth && a.Model.Amendments[0].PerCake == b.Model.Amendments[0].PerCake
	}
	first := recipe(func(*facilityfile.File) {})
	other := func(f *facilityfile.File) {
		m := &f.Model
		m.Feed.Growth, m.Feed.Base, m.Years = plant.Compound{Rate: 0.07}, 2*m.Feed.Base, 5
		m.Vessels.Installed, m.Holding.Capacity, m.Changes = 20, 2*m.Holding.Capacity, nil
		m.Product.Capacity, m.Yard.Places = 2*m.Product.Capacity, 30
	}
	if again := recipe(other); known.made != 1 || !same(first, again) {
		t.Errorf("designed %d times, alike %v", known.made, same(first, again))
	}
	alone := designedFile(t, "")
	other(alone)
	if _, err := Apply(t.Context(), alone, 0, nil); err != nil || !same(first, alone) {
		t.Errorf("without a memory it is another: %v", err)
	}
	if wetter := recipe(func(f *facilityfile.File) { f.Model.Feed.CakeSolids[0] -= 0.02 }); known.made != 2 || same(first, wetter) {
		t.Errorf("designed %d times; wetter cake has the same recipe: %v", known.made, same(first, wetter))
	}
}
