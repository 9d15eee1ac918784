package mix

import (
	"math"
	"slices"
	"strings"
	"testing"

	"loamcast/facility/material"
)

// two is a design of 1,000 kg of cake and fresh chips at cost 1, so that the
// answer is the least, and with a negative price the most, of chips.
func two(targets Targets) Design {
	return Design{
		Materials: []Material{priced(testCake, Cake, 0), priced(fresh, FreshChips, 1)},
		Targets:   targets, Cake: 1000, Bulk: material.DefaultBulk(), Weights: DefaultWeights(),
	}
}

// wantsMost turns the price of the chips, so that upper bounds bind.
func wantsMost(d Design) Design {
	d.Materials[1].Cost, d.Materials[1].Available = -1, 1e5
	return d
}

// Shows the answer of each target that binds on its own, worked by hand for
// cake at 20 % and chips at 65 % solids. C is VS/1.8.
func TestEachTargetBinds(t *testing.T) {
	volume := two(Targets{})
	volume.Volume = 4
	weight := two(Targets{})
	weight.Weight = 1500
	cakeC, cakeN := 200*0.70/1.8, 200*0.045
	chipC, chipN := 0.65*0.97/1.8, 0.65*0.002
	rows := []struct {
		target Target
		design Design
		chips  float64 // kg; NaN: found by bisection on the volume model
	}{
		{SolidsLow, two(Targets{Solids: Window{Low: 0.40}}), 1000 * (0.40 - 0.20) / (0.65 - 0.40)},
		{SolidsHigh, wantsMost(two(Targets{Solids: Window{High: 0.40}})), 1000 * (0.40 - 0.20) / (0.65 - 0.40)},
		{CarbonToNitrogenLow, two(Targets{CarbonToNitrogen: Window{Low: 25}}), (25*cakeN - cakeC) / (chipC - 25*chipN)},
		{CarbonToNitrogenHigh, wantsMost(two(Targets{CarbonToNitrogen: Window{High: 25}})), (25*cakeN - cakeC) / (chipC - 25*chipN)},
		{ChipsToCakeLow, two(Targets{ChipsToCake: Window{Low: 2.5}}), 2.5 * 300},
		{ChipsToCakeHigh, wantsMost(two(Targets{ChipsToCake: Window{High: 2.5}})), 2.5 * 300},
		{BatchWeight, wantsMost(weight), 500},
		{FreeAirSpaceLow, two(Targets{FreeAirSpace: 0.40}), math.NaN()},
		{BulkDensityHigh, two(Targets{BulkDensity: 600}), math.NaN()},
		{BatchVolume, wantsMost(volume), math.NaN()},
	}
	for _, row := range rows {
		t.Run(row.target.String(), func(t *testing.T) {
			want := row.chips
			if math.IsNaN(want) {
				want = bisect(row.design, row.target)
			}
			r := mustSolve(t, row.design)
			if r.Status != Met || !slices.Equal(r.Binding, []Target{row.target}) {
				t.Errorf("%v, binding %v, misses %+v", r.Status, r.Binding, r.Misses)
			}
			near(t, "chips, kg", r.Mass[1], want, 1e-5*want)
		})
	}
}

// bisect finds the chips at which a target is just met, without linearising.
func bisect(d Design, target Target) float64 {
	required, _ := d.required(target)
	low, high := 0.0, 5000.0
	for range 200 {
		mid := (low + high) / 2
		values := reached(d.Bulk, testCake.OfWet(d.Cake).Plus(fresh.OfWet(mid)), 0, 0, d.Cake)
		grows := target != BulkDensityHigh
		if (values[target] < required) == grows {
			low = mid
		} else {
			high = mid
		}
	}
	return low
}

// Shows that a material that runs out is named, and that the answer then turns
// to the next one.
func TestUsedUpMaterialIsNamed(t *testing.T) {
	d := plantDesign()
	all := mustSolve(t, d)
	d.Materials[2].Available = all.Mass[2] / 2
	r := mustSolve(t, d)
	if r.Status != Met || !slices.Equal(r.UsedUp, []int{2}) {
		t.Fatalf("%v, used up %v", r.Status, r.UsedUp)
	}
	if r.Mass[2] != d.Materials[2].Available || r.Mass[1]+r.Mass[3] == 0 || r.Cost <= all.Cost {
		t.Errorf("masses %v at cost %g, before %v at %g", r.Mass, r.Cost, all.Mass, all.Cost)
	}
}

// Shows that the nearest mix names what it misses, what was required and what
// it reaches: 300 kg of chips make 1,000 kg of cake 1.0 in ratio and 30.38 %
// solids, whatever one asks.
func TestNearestMissNamesTargets(t *testing.T) {
	d := two(Targets{ChipsToCake: Window{Low: 2.5}, Solids: Window{Low: 0.25, High: 0.5}})
	d.Materials[1].Available = 300
	r := mustSolve(t, d)
	want := Miss{Target: ChipsToCakeLow, Required: 2.5, Reached: 1.0}
	if r.Status != NearestMiss || len(r.Misses) != 1 || r.Misses[0].Target != want.Target {
		t.Fatalf("%v: %+v, want %+v", r.Status, r.Misses, want)
	}
	near(t, "required", r.Misses[0].Required, 2.5, 0)
	near(t, "reached", r.Misses[0].Reached, 1.0, 1e-8)
	near(t, "solids", 1-r.Moisture, (200+300*0.65)/1300, 1e-9)
}

// Shows that cake which is not there, or does not fit the scale, is a miss and
// not an error, and that weights decide which of two targets gives way.
func TestWeightsDecideWhatGivesWay(t *testing.T) {
	d := two(Targets{})
	d.Materials[0].Available = 600
	r := mustSolve(t, d)
	if len(r.Misses) != 1 || r.Misses[0] != (Miss{CakeMass, 1000, 600}) {
		t.Errorf("600 kg of cake on hand: %+v", r.Misses)
	}

	d = two(Targets{ChipsToCake: Window{Low: 3}})
	d.Weight = 1200
	if r = mustSolve(t, d); len(r.Misses) != 1 || r.Misses[0].Target != ChipsToCakeLow {
		t.Errorf("by default the ratio gives way: %+v", r.Misses)
	}
	d.Weights[ChipsToCakeLow] = 1000
	if r = mustSolve(t, d); len(r.Misses) != 1 || r.Misses[0].Target != BatchWeight {
		t.Errorf("with a heavy ratio the scale gives way: %+v", r.Misses)
	}
}

// Shows a most-cake batch worked by hand: 9,000 kg at 38 % solids hold
// 9,000·(0.65 − 0.38)/(0.65 − 0.20) = 5,400 kg of cake with fresh chips.
func TestMostCake(t *testing.T) {
	d := two(Targets{Solids: Window{Low: 0.38}})
	d.Objective, d.Cake, d.Weight = MostCake, 0, 9000
	r := mustSolve(t, d)
	if r.Status != Met || !slices.Contains(r.Binding, BatchWeight) || !slices.Contains(r.Binding, SolidsLow) {
		t.Fatalf("%v, binding %v", r.Status, r.Binding)
	}
	near(t, "cake, kg", r.Cake, 5400, 1e-3)

	d.Cake = 4000
	near(t, "cake at most 4,000 kg", mustSolve(t, d).Cake, 4000, 1e-3)

	d.Cake, d.Targets.CarbonToNitrogen = 0, Window{High: 10}
	r = mustSolve(t, d)
	if r.Status != NearestMiss || len(r.Misses) == 0 {
		t.Fatalf("solids 38 %% and C:N 10 exclude each other: %v %+v", r.Status, r.Misses)
	}
	near(t, "the nearest mix fills the scale, kg", r.Weight, 9000, 1e-6)
}

// Shows that of two mixes of equal cost the smaller one is taken: with all
// materials free, nothing beyond the lower bound.
func TestFreeMaterialsGiveTheSmallestBatch(t *testing.T) {
	d := plantDesign()
	d.Targets = Targets{ChipsToCake: Window{2, 4}}
	d.Materials = d.Materials[:3]
	for i := range d.Materials {
		d.Materials[i].Cost = 0
	}
	near(t, "ratio", mustSolve(t, d).ChipsToCake, 2, 1e-6)
}

// Shows that every kind of impossible design is refused, with words that name
// the cause, and that all causes are given at once.
func TestValidate(t *testing.T) {
	rows := []struct {
		name   string
		change func(d *Design)
		want   string
	}{
		{"no cake", func(d *Design) { d.Materials = d.Materials[1:] }, "no cake on hand"},
		{"none left", func(d *Design) { d.Materials[0].Available = 0 }, "no cake on hand"},
		{"no mass", func(d *Design) { d.Cake = 0 }, "needs the cake per batch"},
		{"not a number", func(d *Design) { d.Cake = math.NaN() }, "must be finite"},
		{"endless", func(d *Design) { d.Objective, d.Cake = MostCake, 0 }, "most cake needs"},
		{"objective", func(d *Design) { d.Objective = 7 }, "unknown objective"},
		{"twice", func(d *Design) { d.Materials[2].Name = "fresh" }, "two materials"},
		{"kind", func(d *Design) { d.Materials[1].Kind = 9 }, "unknown kind"},
		{"empty", func(d *Design) { d.Materials[1].Composition = material.Parcel{} }, "composition"},
		{"water", func(d *Design) { d.Materials[0].Composition = material.Parcel{Water: 1} }, "without solids"},
		{"density", func(d *Design) { d.Materials[1].BulkDensity = 0 }, "bulk density"},
		{"negative", func(d *Design) { d.Materials[1].Available = -1 }, "must not be negative"},
		{"cost", func(d *Design) { d.Materials[1].Cost = math.Inf(1) }, "must be finite"},
		{"pays", func(d *Design) { d.Materials[1].Cost = -1 }, "needs a limit"},
		{"upside down", func(d *Design) { d.Targets.Solids = Window{0.5, 0.4} }, "upside down"},
		{"beyond", func(d *Design) { d.Targets.Solids = Window{0.5, 40} }, "beyond 1"},
		{"air", func(d *Design) { d.Targets.FreeAirSpace = 25 }, "free air space"},
		{"heavy", func(d *Design) { d.Targets.BulkDensity = -1 }, "bulk density"},
		{"window", func(d *Design) { d.Targets.ChipsToCake.Low = math.NaN() }, "must not be negative"},
		{"weightless", func(d *Design) { d.Weights[SolidsLow] = 0 }, "weight of lowest solids"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			d := plantDesign()
			row.change(&d)
			if _, err := d.Solve(); err == nil || !strings.Contains(err.Error(), row.want) {
				t.Errorf("got %v, want an error with %q", err, row.want)
			}
		})
	}
	d := plantDesign()
	d.Cake, d.Targets.FreeAirSpace, d.Materials[2].Name = 0, 2, "fresh"
	if err := d.Validate(); strings.Count(err.Error(), "\n") != 2 {
		t.Errorf("three causes wanted, got %q", err)
	}
}

func BenchmarkSolve(b *testing.B) {
	d := plantDesign()
	for b.Loop() {
		mustSolve(b, d)
	}
}
