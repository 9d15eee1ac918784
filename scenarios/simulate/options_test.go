package simulate_test

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/random"
)

// smallFile and yardFile are sound facility files that hold every key between
// them and in which nearly every limit is felt within their one year.
const (
	smallFile = "../facilityfile/testdata/small.yaml"
	yardFile  = "../facilityfile/testdata/yard.yaml"
)

func readSmall(t *testing.T) string { return readText(t, smallFile) }

func readText(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// edited applies old, new, old, new … to a text in which each old is there
// once.
func edited(t *testing.T, text string, edits ...string) string {
	t.Helper()
	for i := 0; i < len(edits); i += 2 {
		if n := strings.Count(text, edits[i]); n != 1 {
			t.Fatalf("%q is there %d times", edits[i], n)
		}
		text = strings.Replace(text, edits[i], edits[i+1], 1)
	}
	return text
}

// recordOf runs the first replication of a facility file.
func recordOf(t *testing.T, text string) *plant.Record {
	t.Helper()
	_, rec := runOf(t, text)
	return rec
}

// runOf returns the plant of a facility file and its first replication.
func runOf(t *testing.T, text string) (*plant.Plant, *plant.Record) {
	t.Helper()
	f, err := facilityfile.Parse("plant.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	p, err := plant.New(f.Model)
	if err != nil {
		t.Fatal(err)
	}
	rec, err := p.Run(t.Context(), random.Key{Seed: f.Seed})
	if err != nil {
		t.Fatal(err)
	}
	return p, rec
}

// figure is a number of a record.
type figure struct {
	name string
	of   func(*plant.Record) float64
}

// total is the figure that adds up a number of every month.
func total(name string, of func(*plant.Month) float64) figure {
	return figure{name, func(rec *plant.Record) float64 {
		all := 0.0
		for i := range rec.Months {
			all += of(&rec.Months[i])
		}
		return all
	}}
}

// per is one figure over another.
func per(name string, a, b figure) figure {
	return figure{name, func(rec *plant.Record) float64 { return a.of(rec) / b.of(rec) }}
}

// direction is how a figure must move; the zero direction asks only that
// anything in the record does.
type direction struct {
	figure
	sign float64
}

func up(f figure) direction   { return direction{f, +1} }
func down(f figure) direction { return direction{f, -1} }

var (
	cakeDry   = total("dry cake", func(m *plant.Month) float64 { return m.Feed.Dry })
	cakeWet   = total("wet cake", func(m *plant.Month) float64 { return m.Feed.Wet })
	diverted  = total("diverted", func(m *plant.Month) float64 { return m.Holding.DivertedDry })
	mixed     = total("cake mixed", func(m *plant.Month) float64 { return m.Mixing.CakeDry })
	batches   = total("batches", func(m *plant.Month) float64 { return m.Mixing.Batches })
	loads     = total("loads", func(m *plant.Month) float64 { return m.Loads.Filled })
	loadWet   = total("wet mass of loads", func(m *plant.Month) float64 { return m.Loads.Wet })
	partial   = total("part-filled vessels", func(m *plant.Month) float64 { return m.Loads.PartFilled })
	early     = total("early releases", func(m *plant.Month) float64 { return m.Release.Early })
	failed    = total("failed loads", func(m *plant.Month) float64 { return m.Release.Failed })
	installed = total("vessels in place", func(m *plant.Month) float64 { return m.Vessels.Installed })
	oxidised  = total("oxidised", func(m *plant.Month) float64 { return m.Losses.Oxidised })
	ammonia   = total("ammonia", func(m *plant.Month) float64 { return m.Losses.Ammonia })
	chips     = total("chips used", func(m *plant.Month) float64 { return m.Chips.Used })
	trucks    = total("truckloads", func(m *plant.Month) float64 { return m.Chips.Truckloads })
	noChips   = total("hours without chips", func(m *plant.Month) float64 { return m.Chips.HoursShort })
	screenFor = total("hours of screening", func(m *plant.Month) float64 { return m.Screen.Hours })
	screened  = total("coarse screened", func(m *plant.Month) float64 { return m.Screen.CoarseFed })
	recovered = total("coarse recovered", func(m *plant.Month) float64 { return m.Screen.CoarseRecovered })
	rejects   = total("rejects", func(m *plant.Month) float64 { return m.Screen.RejectsDry })
	taken     = total("product taken", func(m *plant.Month) float64 { return m.Product.TakenVolume })
	stock     = total("product in store", func(m *plant.Month) float64 { return m.Product.StorePeak })

	wetted       = total("water added", func(m *plant.Month) float64 { return m.Curing.Water })
	waterPerLot  = per("water for a lot", wetted, total("lots that got water", func(m *plant.Month) float64 { return m.Curing.Rewetted }))
	recovery     = per("recovery", recovered, screened)
	wetPerLoad   = per("mass of a load", loadWet, loads)
	batchPerLoad = per("batches of a load", batches, loads)
	chipsPerCake = per("chips per cake", chips, mixed)
	rejected     = per("rejects per coarse", rejects, screened)
)

// option is a key of a facility file that a run depends on, with an edit of its
// value and what that must move. A case with a base is compared with the file
// after that edit, which makes the key felt.
type option struct {
	key      string
	old, new string
	moves    direction
	base     []string
}

// rewetting has lots get water.
var rewetting = []string{"  time: 21 day\n", "  time: 21 day\n  rewet: {below: 50 %, up_to: 56 %}\n"}

// options are the keys of the small file; those of the yard are operations.
var options = []option{
	{key: "start", old: "start: 2027-01-01", new: "start: 2027-05-01"},
	{key: "horizon", old: "horizon: 1 year", new: "horizon: 2 year", moves: up(loads)},
	{key: "warm_up", old: "warm_up: 0 year", new: "warm_up: 1 year"},
	{key: "seed", old: "seed: 1", new: "seed: 2"},

	{key: "site.altitude", old: "altitude: 1,350 ft", new: "altitude: 9,000 ft"},
	{key: "site.temperature", old: "[34 °F, 38 °F, 45 °F", new: "[24 °F, 38 °F, 45 °F"},
	{key: "site.humidity", old: "humidity: 65 %", new: "humidity: 95 %"},

	{key: "solids.dry_per_day", old: "85 kg/day", new: "110 kg/day", moves: up(diverted)},
	{key: "solids.growth.compound", old: "compound: 2.2 %/year", new: "compound: 6 %/year", moves: up(cakeDry)},
	{key: "solids.growth.linear", old: "compound: 2.2 %/year", new: "linear: 6 %/year", moves: up(cakeDry)},
	{key: "solids.growth.by_year", old: "compound: 2.2 %/year", new: "by_year: [1, 1.5]", moves: up(cakeDry)},
	{key: "solids.growth.logistic", old: "compound: 2.2 %/year", new: "logistic: {ceiling: 3, rate: 8 %/year}", moves: up(cakeDry)},
	{key: "solids.growth.by_calendar_year", old: "compound: 2.2 %/year", new: "by_calendar_year: {2027: 1, 2028: 1.5}", moves: up(cakeDry)},
	{key: "solids.growth.steps", old: "compound: 2.2 %/year", new: "steps: [{date: 2027-05-01, factor: 1.5}]", moves: up(cakeDry)},
	{key: "solids.growth.population", old: "  dry_per_day: 85 kg/day\n  growth: {compound: 2.2 %/year}", moves: up(cakeDry),
		new: "  growth: {population: {people: 2200, compound: 2.2 %/year, per_person: 0.05 kg/day, source: invented}}"},
	{key: "solids.by_month", old: "[0.90, 0.90, 0.93", new: "[0.60, 0.90, 0.93"},
	{key: "solids.by_weekday", old: "mon: 1.1", new: "mon: 2.1"},
	{key: "solids.day_to_day.variation", old: "variation: 18 %", new: "variation: 5 %"},
	{key: "solids.day_to_day.correlation", old: "correlation: 0.6", new: "correlation: 0.1"},
	{key: "solids.cake_solids", old: "cake_solids: 20 %", new: "cake_solids: 23 %", moves: down(cakeWet)},
	{key: "solids.cake_solids_variation", old: "cake_solids_variation: 4 %", new: "cake_solids_variation: 1 %"},

	{key: "cake.volatile_solids", old: "volatile_solids: 79 %", new: "volatile_solids: 76 %"},
	{key: "cake.readily_degradable", old: "readily_degradable: 56 %", new: "readily_degradable: 50 %", moves: down(ammonia)},
	{key: "cake.slowly_degradable", old: "slowly_degradable: 8 %", new: "slowly_degradable: 12 %"},
	{key: "cake.nitrogen", old: "nitrogen: 5.2 %", new: "nitrogen: 5.5 %"},
	{key: "cake.carbon", old: "carbon: 44 %", new: "carbon: 42 %"},

	{key: "holding.capacity_dry", old: "capacity_dry: 2.6 t", new: "capacity_dry: 4 t", moves: down(diverted)},
	{key: "holding.start_load_with", old: "start_load_with: 90 %", new: "start_load_with: 40 %"},

	{key: "chips.bulk_density", old: "bulk_density: 490 lb/yd3", new: "bulk_density: 430 lb/yd3"},
	{key: "chips.moisture", old: "moisture: 38 %", new: "moisture: 45 %"},
	{key: "chips.volatile_solids", old: "volatile_solids: 98 %", new: "volatile_solids: 95 %"},
	{key: "chips.readily_degradable", old: "readily_degradable: 1 %", new: "readily_degradable: 2 %"},
	{key: "chips.slowly_degradable", old: "slowly_degradable: 22 %", new: "slowly_degradable: 15 %", moves: down(oxidised)},
	{key: "chips.nitrogen", old: "nitrogen: 0.20 %", new: "nitrogen: 0.22 %"},
	{key: "chips.carbon", old: "carbon: 50 %", new: "carbon: 52 %"},
	{key: "chips.fines", old: "fines: 4 %", new: "fines: 9 %"},
	{key: "chips.reorder_at", old: "reorder_at: 20 yd3", new: "reorder_at: 5 yd3", moves: up(noChips)},
	{key: "chips.order_up_to", old: "order_up_to: 56 yd3", new: "order_up_to: 60 yd3"},
	{key: "chips.truckload", old: "truckload: 30 yd3", new: "truckload: 10 yd3", moves: up(trucks)},
	{key: "chips.lead_time", old: "lead_time: 8 day", new: "lead_time: 40 day", moves: up(noChips), base: []string{"reorder_at: 20 yd3", "reorder_at: 10 yd3"}},
	{key: "chips.lead_time_variation", old: "lead_time_variation: 35 %", new: "lead_time_variation: 80 %"},

	{key: "mix.chips_to_cake", old: "chips_to_cake: 2.5", new: "chips_to_cake: 3.2", moves: up(chipsPerCake)},
	{key: "mix.batch_volume", old: "batch_volume: 14 yd3", new: "batch_volume: 7 yd3", moves: up(batchPerLoad)},
	{key: "mix.batch_scale", old: "batch_scale: 14,500 lb", new: "batch_scale: 6,000 lb", moves: up(batchPerLoad)},
	{key: "mix.batch_time", old: "batch_time: 25 min", new: "batch_time: 4 h"},

	{key: "vessels.installed", old: "installed: 1", new: "installed: 2", moves: down(diverted)},
	{key: "vessels.additions.date", old: "date: 2027-10-01", new: "date: 2027-04-01", moves: up(installed)},
	{key: "vessels.additions.count", old: "count: 1}", new: "count: 2}", moves: up(installed)},
	{key: "vessels.useful_volume", old: "useful_volume: 31 yd3", new: "useful_volume: 20 yd3", moves: down(wetPerLoad)},
	{key: "vessels.payload", old: "payload: 14 short ton", new: "payload: 10 short ton", moves: down(wetPerLoad)},
	{key: "vessels.residence", old: "  residence: 12 day", new: "  residence: 16 day"},
	{key: "vessels.shortest_residence", old: "shortest_residence: 11 day", new: "shortest_residence: 8 day"},
	{key: "vessels.longest_residence", old: "longest_residence: 16 day", new: "longest_residence: 12 day", moves: up(failed)},
	// With 20 days aimed at and 11 allowed, the one vessel is released early.
	{key: "vessels.early_release", old: "early_release: true", new: "early_release: false", moves: down(early),
		base: []string{"  residence: 12 day", "  residence: 20 day", "longest_residence: 16 day", "longest_residence: 25 day"}},
	{key: "vessels.turnaround", old: "turnaround: 36 h", new: "turnaround: 8 day", moves: up(diverted)},
	{key: "vessels.part_filled_wait", old: "part_filled_wait: 6 day", new: "part_filled_wait: 12 h", moves: up(partial)},

	{key: "curing.pad", old: "pad: 45 yd3", new: "pad: 25 yd3", moves: down(loads)},
	{key: "curing.time", old: "  time: 21 day", new: "  time: 28 day"},
	{key: "curing.longest_time", old: "longest_time: 30 day", new: "longest_time: 21 day"},
	{key: "curing.aeration.setpoint", old: "setpoint: 45 °C", new: "setpoint: 55 °C"},
	{key: "curing.aeration.least_air", old: "least_air: 1 m3/t·h, most_air", new: "least_air: 8 m3/t·h, most_air"},
	{key: "curing.aeration.most_air", old: "most_air: 30 m3/t·h", new: "most_air: 6 m3/t·h"},

	{key: "screen.throughput", old: "throughput: 6 yd3/h", new: "throughput: 3 yd3/h", moves: up(screenFor)},
	{key: "screen.opening", old: "opening: 0.375 in", new: "opening: 0.5 in", moves: down(recovery), base: []string{"  recovery: 80 %\n", ""}},
	{key: "screen.recovery", old: "recovery: 80 %", new: "recovery: 70 %", moves: down(recovery)},
	{key: "screen.moisture_limit", old: "moisture_limit: 46 %", new: "moisture_limit: 44 %", moves: down(recovery)},
	{key: "screen.wet_lots", old: "moisture_limit: 46 %", new: "moisture_limit: 46 %\n  wet_lots: hold", moves: up(keptDry)},
	{key: "screen.dry_enough", old: "wet_lots: dry first", new: "wet_lots: dry first\n  dry_enough: 44 %", moves: up(keptDry), base: driesFirst},
	{key: "screen.longest_wait", old: "wet_lots: dry first", new: "wet_lots: dry first\n  longest_wait: 6 h", moves: down(keptDry), base: driesFirst},
	{key: "screen.drying_air", old: "wet_lots: dry first", new: "wet_lots: dry first\n  drying_air: 20 m3/t·h", moves: up(keptDry), base: driesFirst},
	{key: "screen.carry_over", old: "carry_over: 25 %", new: "carry_over: 50 %"},
	{key: "screen.rejects", old: "rejects: 1.5 %", new: "rejects: 6 %", moves: up(rejected)},
	{key: "screen.attrition", old: "attrition: 4 %", new: "attrition: 12 %", moves: down(recovered)},

	{key: "product.store", old: "store: 14 yd3", new: "store: 6 yd3", moves: down(stock)},
	{key: "product.demand_per_day", old: "1 yd3, 0.3 yd3", new: "1 yd3, 3 yd3", moves: up(taken)},

	{key: "hours.week", old: "mon: [07:00-15:30], tue: [07:00-15:30], ", new: ""},
	{key: "hours.holidays", old: "last mon may", new: "03-01, 03-02, 03-03, 03-04, 03-05, 03-08, 03-09, 03-10, 03-11, 03-12"},

	{key: "criteria.at_least", old: "at_least: 55 °C", new: "at_least: 68 °C", moves: up(failed)},
	{key: "criteria.for", old: "for: 3 day", new: "for: 9 day", moves: up(failed)},
	{key: "criteria.where", old: "for: 10 day, where: vessel and curing", new: "for: 10 day, where: vessel"},
	{key: "criteria.above", old: "above: 40 °C, mean_above: 45 °C", new: "above: 54 °C, mean_above: 54 °C", moves: up(failed)},
	{key: "criteria.mean_above", old: "mean_above: 45 °C", new: "mean_above: 60 °C", moves: up(failed)},
	{key: "criteria.peak_above", old: "peak_above: 56 °C", new: "peak_above: 66 °C", moves: up(failed),
		base: []string{"at_least: 55 °C, for: 3 day", "at_least: 40 °C, for: 5 day, peak_above: 56 °C, peak_for: 4 h"}},
	{key: "criteria.peak_for", old: "peak_for: 4 h", new: "peak_for: 110 h", moves: up(failed),
		base: []string{"at_least: 55 °C, for: 3 day", "at_least: 40 °C, for: 5 day, peak_above: 56 °C, peak_for: 4 h"}},
	{key: "criteria.equation", old: "equation: solids 7 % and more", new: "equation: solids below 7 %",
		base: []string{"at_least: 55 °C, for: 3 day", "equation: solids 7 % and more", "setpoint: 62 °C", "setpoint: 51 °C"}},

	{key: "aeration.program.for", old: "for: 7 day", new: "for: 4 day"},
	{key: "aeration.program.setpoint", old: "setpoint: 62 °C", new: "setpoint: 58 °C"},
	{key: "aeration.program.least_air", old: "least_air: 2 m3/t·h", new: "least_air: 25 m3/t·h"},
	{key: "aeration.blower_per_vessel", old: "blower_per_vessel: 350 cfm", new: "blower_per_vessel: 60 cfm"},
	{key: "curing.rewet.below", old: "below: 50 %, up_to: 56 %", new: "below: 56 %, up_to: 56 %", moves: up(wetted), base: rewetting},
	{key: "curing.rewet.up_to", old: "below: 50 %, up_to: 56 %", new: "below: 50 %, up_to: 62 %", moves: up(waterPerLot), base: rewetting},

	{key: "ammonia.account", old: "account: by nitrogen released, ", new: "account: by formula} # ", moves: down(ammonia),
		base: []string{"seed: 1\n", "seed: 1\nammonia: {account: by nitrogen released, growth_efficiency: 1 %}\n"}}, // microbes keep next to nothing
	{key: "ammonia.microbial_carbon_to_nitrogen", old: "nitrogen: 10", new: "nitrogen: 20", moves: up(ammonia),
		base: []string{"seed: 1\n", "seed: 1\nammonia: {microbial_carbon_to_nitrogen: 10}\n"}},
	{key: "ammonia.growth_efficiency", old: "growth_efficiency: 30 %", new: "growth_efficiency: 45 %", moves: down(ammonia),
		base: []string{"seed: 1\n", "seed: 1\nammonia: {growth_efficiency: 30 %}\n"}},

	{key: "aeration.drying.air", old: "air: 60 m3/t·h", new: "air: 2 m3/t·h", moves: up(daysDried), base: driesInVessel},
	{key: "aeration.drying.until", old: "until: 52 %", new: "until: 45 %", moves: up(daysDried), base: driesInVessel},
	{key: "aeration.drying.longest", old: "longest: 6 day", new: "longest: 6 h", moves: down(daysDried), base: driesInVessel},
	{key: "aeration.wall_loss", old: "wall_loss: 25 W/K", new: "wall_loss: 120 W/K"},
}

// Every key that a run depends on moves what it simulates, in the direction
// that is plain; none is read and ignored.
func TestEveryOptionMatters(t *testing.T) {
	everyOptionMatters(t, readSmall(t), slices.Concat(options, productions, chipSupplies, rates, structures, contracts))
}

func everyOptionMatters(t *testing.T, text string, options []option) {
	standard := recordOf(t, text)
	for i, c := range options {
		if testing.Short() && i%8 != 0 {
			continue // all of them take long under the race detector
		}
		t.Run(c.key, func(t *testing.T) {
			t.Parallel()
			base, before := text, standard
			if c.base != nil {
				base = edited(t, text, c.base...)
				before = recordOf(t, base)
			}
			c.check(t, before, recordOf(t, edited(t, base, c.old, c.new)))
		})
	}
}

// check compares the record before an edit with the one after it.
func (c option) check(t *testing.T, before, after *plant.Record) {
	t.Helper()
	if reflect.DeepEqual(before.Months, after.Months) && reflect.DeepEqual(before.Years, after.Years) {
		t.Errorf("%q instead of %q changes nothing", c.new, c.old)
	}
	if c.moves.sign == 0 {
		return
	}
	was, is := c.moves.of(before), c.moves.of(after)
	if !(c.moves.sign*(is-was) > 0) {
		t.Errorf("%q instead of %q: %s went from %g to %g", c.new, c.old, c.moves.name, was, is)
	}
}
