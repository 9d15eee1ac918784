package facilityfile

import (
	"math"
	"reflect"
	"slices"
	"sort"
	"strings"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"
	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/sim"
	"loamcast/sim/random"
)

// withInputs reads the planning file with other uncertain inputs.
func withInputs(t testing.TB, entries, correlations string) *File {
	t.Helper()
	text := strings.Replace(readPlanning(t), priced[0], priced[1], 1) // so that it may be uncertain
	text = strings.Replace(text, "\ncuring:\n", "\ncuring:\n  handling_loss: 33 %\n", 1)
	text = strings.Replace(text, "\nscreen:\n", "\nscreen:\n  wet_lots: dry first\n", 1)
	text = strings.Replace(text, "  tipping: 75 USD", "  carbon: {price: 50 USD/t}\n  tipping: 75 USD", 1)
	from, to := strings.Index(text, "uncertain:\n"), strings.Index(text, "money:\n")
	f, err := Parse("planning.yaml", []byte(text[:from]+"uncertain:\n"+entries+correlations+"\n"+text[to:]))
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// ranks are the rank of every value in its list.
func ranks(values []float64) []float64 {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool { return values[order[i]] < values[order[j]] })
	out := make([]float64, len(values))
	for rank, i := range order {
		out[i] = float64(rank)
	}
	return out
}

// samples draws the planning file's model many times and returns the values of
// five of its inputs.
func samples(f *File, n int) (growth, solids, volatile, recovery, tipping []float64) {
	for replication := range n {
		m, e := f.Planning.Draw(f.Model, random.Key{Seed: 7, Replication: replication})
		growth = append(growth, m.Feed.Growth.(plant.Faster).Rate)
		solids = append(solids, m.Feed.CakeSolids[3]-0.2)
		volatile = append(volatile, m.Cake.Volatile)
		recovery = append(recovery, m.Screening.Settings.Recovery)
		tipping = append(tipping, e.Prices.Tipping.Amount*907.18474)
	}
	return
}

// Draws have the means and spreads of their distributions, joined or not. Wanted
// are arithmetic on the definitions: a uniform number on a, b has mean (a+b)/2
// and variance (b−a)²/12; a triangular one (a+m+b)/3 and
// (a²+m²+b²−am−ab−mb)/18; a PERT one μ = (a+4m+b)/6 and (μ−a)(b−μ)/7. The bound
// is four standard errors of a mean.
func TestDrawsHaveTheirDistributions(t *testing.T) {
	const n = 4000
	growth, solids, volatile, recovery, tipping := samples(parsePlanning(t), n)
	mu := (0.70 + 4*0.78 + 0.84) / 6
	for _, c := range []struct {
		name     string
		values   []float64
		mean, sd float64
	}{
		{"normal", growth, 0, 0.004},
		{"uniform", solids, 0.0025, 0.025 / math.Sqrt(12)},
		{"triangular", volatile, 2.36 / 3, math.Sqrt((0.77*0.77 + 0.79*0.79 + 0.64 - 0.77*0.79 - 0.77*0.8 - 0.79*0.8) / 18)},
		{"PERT", recovery, mu, math.Sqrt((mu - 0.70) * (0.84 - mu) / 7)},
		{"empirical", tipping, 238.0 / 3, math.Sqrt((95*95+68*68+75*75)/3.0 - 238*238/9.0)},
	} {
		mean, sd := stat.MeanStdDev(c.values, nil)
		if math.Abs(mean-c.mean) > 4*c.sd/math.Sqrt(n) || math.Abs(sd/c.sd-1) > 0.06 {
			t.Errorf("%s: mean %.6g and deviation %.6g, want %.6g and %.6g", c.name, mean, sd, c.mean, c.sd)
		}
	}
}

// The rank correlations of draws are those of the file, and nil where it has none,
// also between two inputs that are joined to a third. The bound is four standard
// errors, 1/√n near nil.
func TestDrawsHaveTheirRankCorrelations(t *testing.T) {
	const n = 4000
	growth, solids, volatile, recovery, tipping := samples(parsePlanning(t), n)
	for _, c := range []struct {
		name string
		a, b []float64
		want float64
	}{
		{"growth and cake solids", growth, solids, -0.4},
		// Only three prices can be drawn, so that ranks tie; the price is compared
		// with its own quantile instead, below.
		{"cake solids and tipping", solids, tipping, 0},
		{"growth and recovery", growth, recovery, 0},
		{"volatile solids and recovery", volatile, recovery, 0},
	} {
		got := stat.Correlation(ranks(c.a), ranks(c.b), nil)
		if math.Abs(got-c.want) > 4/math.Sqrt(n) {
			t.Errorf("%s: rank correlation %.3f, want %.3f", c.name, got, c.want)
		}
	}
	continuous := parsePlanning(t, "empirical: [95 USD/short ton, 68 USD/short ton, 75 USD/short ton]", "uniform: [60 USD/short ton, 90 USD/short ton]")
	growth, _, _, _, tipping = samples(continuous, n)
	if got := stat.Correlation(ranks(growth), ranks(tipping), nil); math.Abs(got-0.5) > 4/math.Sqrt(n) {
		t.Errorf("growth and tipping: rank correlation %.3f, want 0.5", got)
	}
}

// An input that is added shifts no draw of the others, wherever it stands, and
// draws without correlations are those of their own distribution, bit for bit.
func TestAddedInputShiftsNoDraw(t *testing.T) {
	const recovery = "  - {input: screen.recovery, pert: [70 %, 78 %, 84 %]}\n"
	const others = "  - {input: solids.growth, normal: {mean: 0 %/year, sd: 0.4 %/year}}\n  - {input: cake.volatile_solids, triangular: [77 %, 79 %, 80 %]}\n"
	alone := withInputs(t, recovery, "")
	more := withInputs(t, others+recovery, "correlations: [{between: [solids.growth, cake.volatile_solids], rank: 0.7}]\n")
	for replication := range 200 {
		key := random.Key{Seed: 3, Replication: replication}
		a, _ := alone.Planning.Draw(alone.Model, key)
		b, _ := more.Planning.Draw(more.Model, key)
		drawn := alone.Planning.Inputs[0].Distribution.Draw(key.Stream("uncertain input screen.recovery"))
		if got := a.Screening.Settings.Recovery; got != drawn || got != b.Screening.Settings.Recovery {
			t.Fatalf("replication %d: %g alone, %g with others, %g from the distribution", replication, got, b.Screening.Settings.Recovery, drawn)
		}
	}
}

// A draw leaves the model that it was given, and the file's economy, as they
// were, so that replications share nothing that is written.
func TestDrawWritesNothingShared(t *testing.T) {
	f, same := parsePlanning(t), parsePlanning(t)
	for replication := range 20 {
		m, e := f.Planning.Draw(f.Model, random.Key{Replication: replication})
		f.Planning.Draw(m, random.Key{Replication: replication}) // from what was drawn, too
		if e.Prices.Tipping == (Economy{}).Prices.Tipping {
			t.Fatal("the economy was not drawn")
		}
	}
	if !reflect.DeepEqual(f.Model, same.Model) || !reflect.DeepEqual(f.Planning.Economy, same.Planning.Economy) {
		t.Error("the file's model or economy was altered")
	}
}

// Every input sets what its key says, in the model's unit. The quantile asked for
// is the median of a uniform distribution.
func TestEveryInputSetsItsValue(t *testing.T) {
	const yd3, ton, gallon = 0.764554857984, 907.18474, 0.003785411784
	tested := map[string]bool{}
	for _, c := range []struct {
		key, from, to string
		of            func(*plant.Model, *Economy) float64
		want          float64
	}{
		{"solids.dry_per_day", "90 kg/day", "110 kg/day", func(m *plant.Model, _ *Economy) float64 { return m.Feed.Base }, 100},
		{"solids.growth", "0 %/year", "2 %/year", func(m *plant.Model, _ *Economy) float64 {
			g := m.Feed.Growth.(plant.Faster)
			return g.Factor(3) / g.Factor(1) / (g.Growth.Factor(3) / g.Growth.Factor(1))
		}, 1.0201},
		{"solids.cake_solids", "-1 %", "3 %", func(m *plant.Model, _ *Economy) float64 { return m.Feed.CakeSolids[11] }, 0.21},
		{"cake.volatile_solids", "76 %", "78 %", func(m *plant.Model, _ *Economy) float64 { return m.Cake.Volatile }, 0.77},
		{"cake.readily_degradable", "50 %", "54 %", func(m *plant.Model, _ *Economy) float64 { return m.Cake.Readily }, 0.52},
		{"cake.rapidly_degradable", "4 %", "8 %", func(m *plant.Model, _ *Economy) float64 { return m.Cake.Rapidly }, 0.06},
		{"curing.handling_loss", "20 %", "50 %", func(m *plant.Model, _ *Economy) float64 { return m.Curing.Handling.Share }, 0.35},
		{"screen.dry_enough", "44 %", "48 %", func(m *plant.Model, _ *Economy) float64 { return m.Drying.Moisture }, 0.46},
		{"cake.nitrogen", "5 %", "6 %", func(m *plant.Model, _ *Economy) float64 { return m.Cake.Nitrogen }, 0.055},
		{"mix.chips_to_cake", "2.4", "3", func(m *plant.Model, _ *Economy) float64 { return m.Recipe.ChipsPerCake }, 2.7},
		{"chips.moisture", "-4 %", "2 %", func(m *plant.Model, _ *Economy) float64 { return m.Chips.Moisture[6] }, 0.37},
		{"chips.lead_time", "4 day", "16 day", func(m *plant.Model, _ *Economy) float64 { return m.Chips.LeadTime.Days() }, 10},
		{"screen.recovery", "70 %", "80 %", func(m *plant.Model, _ *Economy) float64 { return m.Screening.Settings.Recovery }, 0.75},
		{"screen.carry_over", "20 %", "30 %", func(m *plant.Model, _ *Economy) float64 { return m.Screening.Settings.CarryOver }, 0.25},
		{"screen.attrition", "2 %", "8 %", func(m *plant.Model, _ *Economy) float64 { return m.Screening.Settings.Attrition }, 0.05},
		{"vessels.residence", "14 day", "20 day", func(m *plant.Model, _ *Economy) float64 { return m.Vessels.Residence.Days() }, 17},
		{"vessels.turnaround", "24 h", "48 h", func(m *plant.Model, _ *Economy) float64 { return m.Vessels.Turnaround.Hours() }, 36},
		{"product.demand_per_day", "0.5", "1.5", func(m *plant.Model, _ *Economy) float64 { return m.Product.Demand[4] / yd3 }, 1.5},
		{"chips.price", "9 USD/yd3", "15 USD/yd3", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Chips.Amount * yd3 }, 12},
		{"money.discount", "4 %/year", "8 %/year", func(_ *plant.Model, e *Economy) float64 { return e.Rates.Discount }, 0.06},
		{"money.labour", "30 USD/h", "50 USD/h", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Labour.Amount }, 40},
		{"money.power", "0.1 USD/kWh", "0.2 USD/kWh", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Power.Amount }, 0.15},
		{"money.fuel", "3 USD/gal", "6 USD/gal", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Fuel.Amount * gallon }, 4.5},
		{"money.carbon.price", "40 USD/t", "90 USD/t", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Carbon.Amount * 1000 }, 65},
		{"money.tipping", "60 USD/short ton", "90 USD/short ton", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Tipping.Amount * ton }, 75},
		{"money.missing", "200 USD/short ton", "500 USD/short ton", func(_ *plant.Model, e *Economy) float64 { return e.Prices.Missing.Amount * ton }, 350},
		{"money.product", "-2 USD/yd3", "4 USD/yd3", func(_ *plant.Model, e *Economy) float64 { return e.ProductPrice[0] * yd3 }, 7},
		{"money.capital", "-10 %", "40 %", func(_ *plant.Model, e *Economy) float64 { return e.CapitalOver }, 0.15},
	} {
		f := withInputs(t, "  - {input: "+c.key+", uniform: ["+c.from+", "+c.to+"]}\n", "")
		m, e := f.Planning.At(f.Model, []float64{0.5})
		if got := c.of(&m, &e); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: %.12g at the median, want %.12g", c.key, got, c.want)
		}
		if err := m.Validate(); err != nil {
			t.Errorf("%s: %v", c.key, err)
		}
		tested[c.key] = true
	}
	for _, key := range inputKeys() {
		if !tested[key] {
			t.Errorf("%s is not tested", key)
		}
	}
}

// What lies beyond the range of an input, or in its last tails, is moved to where
// it is cut; quantiles of 0 and 1 are these ends.
func TestDistributionsAreCut(t *testing.T) {
	f := withInputs(t, "  - {input: screen.recovery, normal: {mean: 80 %, sd: 12 %}}\n  - {input: solids.growth, normal: {mean: 0 %/year, sd: 0.4 %/year}}\n", "")
	if len(f.Warnings) != 1 || !strings.Contains(f.Warnings[0].String(), "more than 1 % of it lies above 100 % and is moved there") {
		t.Errorf("warnings %v", f.Warnings)
	}
	at := func(q float64) (recovery, growth float64) {
		m, _ := f.Planning.At(f.Model, []float64{q, q})
		return m.Screening.Settings.Recovery, m.Feed.Growth.(plant.Faster).Rate
	}
	const z = 3.719016485455709 // standard normal quantile of 0.9999, from a table, from memory
	for _, c := range []struct{ q, recovery, growth float64 }{
		{0, 0.8 - z*0.12, -z * 0.004},
		{0.5, 0.8, 0},
		{1, 1, z * 0.004},
	} {
		if recovery, growth := at(c.q); math.Abs(recovery-c.recovery) > 1e-9 || math.Abs(growth-c.growth) > 1e-9 {
			t.Errorf("at %g: %g and %g, want %g and %g", c.q, recovery, growth, c.recovery, c.growth)
		}
	}
}

// Joined numbers stay uniform and within 0 and 1, whatever they were, and a
// number alone is left as it was, bit for bit.
func TestCopulaKeepsNumbersInRange(t *testing.T) {
	c, possible := newCopula(4, []Correlation{{A: 0, B: 2, Rank: 0.8}, {A: 2, B: 3, Rank: -0.5}})
	if !possible {
		t.Fatal("refused")
	}
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SliceOfN(rapid.Float64Range(0x1p-53, 1-0x1p-53), 4, 4).Draw(t, "numbers")
		joined := slices.Clone(u)
		c.join(joined)
		if joined[0] != u[0] || joined[1] != u[1] {
			t.Fatalf("%v became %v", u, joined)
		}
		for _, p := range joined {
			if !(p >= 0 && p <= 1) {
				t.Fatalf("%v became %v", u, joined)
			}
		}
	})
}

// Correlations that no three variables can have are found: with 0.9 to a third,
// two others cannot go against each other.
func TestImpossibleCorrelations(t *testing.T) {
	for _, c := range []struct {
		rank float64
		want bool
	}{{-0.9, false}, {0, false}, {0.7, true}, {0.9, true}} {
		_, possible := newCopula(3, []Correlation{{A: 0, B: 1, Rank: 0.9}, {A: 0, B: 2, Rank: 0.9}, {A: 1, B: 2, Rank: c.rank}})
		if possible != c.want {
			t.Errorf("rank %g of the third pair: possible %v", c.rank, possible)
		}
	}
}

// A shorter residence takes the shortest along.
func TestShorterResidence(t *testing.T) {
	text := readPlanning(t)
	text = strings.Replace(text, "  shortest_residence: 12 day\n", "", 1)
	text = strings.Replace(text, "{input: screen.recovery, pert: [70 %, 78 %, 84 %]}", "{input: vessels.residence, uniform: [10 day, 20 day]}", 1)
	f, err := Parse("planning.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	quantiles := make([]float64, len(f.Planning.Inputs))
	for _, q := range []float64{0, 1} {
		for i := range quantiles {
			quantiles[i] = q
		}
		m, _ := f.Planning.At(f.Model, quantiles)
		if want := sim.DurationOf((10 + 10*q) * day); m.Vessels.Residence != want || m.Vessels.Minimum != min(want, 14*sim.Day) || m.Vessels.Maximum != 20*sim.Day {
			t.Errorf("at %g: %v, %v, %v", q, m.Vessels.Minimum, m.Vessels.Residence, m.Vessels.Maximum)
		}
	}
}

// Proves that a drawn loss by tipping is where a lot of that replication begins to cure,
// in tables that all replications share, and that the file's own is left alone.
func TestDrawnHandlingReachesThePad(t *testing.T) {
	f := withInputs(t, "  - {input: curing.handling_loss, uniform: [20 %, 50 %]}\n", "")
	ambient := f.Model.Pile.Site.Temperature[time.March-1]
	lot := f.Model.Cake.OfWet(1000)
	for _, c := range []struct{ quantile, loss float64 }{{0, 0.2}, {1, 0.5}} {
		m, _ := f.Planning.At(f.Model, []float64{c.quantile})
		if got, want := m.PadStart(50, lot, 0, time.March), 50-c.loss*(50-ambient); math.Abs(got-want) > 1e-6 {
			t.Errorf("at %g a lot of 50 °C begins at %g °C, want %g", c.quantile, got, want)
		}
		if m.Pile != f.Model.Pile || f.Model.Pile.Tipped.Share != 0.33 {
			t.Errorf("the pile of the file is altered: %+v", *f.Model.Pile.Tipped)
		}
	}
}

// Proves that an input which the plant of the file does not heed is refused.
func TestIdleInputsAreRefused(t *testing.T) {
	const priced = "{input: screen.recovery, pert: [70 %, 78 %, 84 %]}"
	for entry, want := range map[string]string{
		"{input: screen.dry_enough, uniform: [44 %, 48 %]}": "lots are screened as they are",
	} {
		text := readPlanning(t)
		if !strings.Contains(text, priced) {
			t.Fatal("the planning file has another input")
		}
		if _, err := Parse("planning.yaml", []byte(strings.Replace(text, priced, entry, 1))); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%s: %v", entry, err)
		}
	}
}
