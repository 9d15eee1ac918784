package simulate_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"loamcast/facility/plant"
)

// production is what the small file says of how much comes.
const production = "  dry_per_day: 85 kg/day\n  growth: {compound: 2.2 %/year}\n" + season

const season = "  by_month: [0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88]\n"

// masses are 85 kg dry a day with that season, in a mass a month: of 28 to 31 days, and
// so many times over.
func masses(times float64) string {
	months := []float64{0.90, 0.90, 0.93, 0.95, 0.96, 1.00, 1.12, 1.22, 1.22, 1.06, 0.90, 0.88} // of a mean of 12.04/12
	days := []float64{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	list := make([]string, len(months))
	for i := range months {
		list[i] = fmt.Sprintf("%.17g kg", 85*times*months[i]*12/12.04*days[i])
	}
	return "[" + strings.Join(list, ", ") + "]"
}

// The small plant, of cake with 20 % solids, said in every way: 85 kg dry a day are
// 425 kg wet, in a year 365.25 times and in 2027 365 times as much. Its runs are the
// same, to rounding.
func TestProductionInEveryFormGivesTheSameRun(t *testing.T) {
	text := readSmall(t)
	const growth = "  growth: {compound: 2.2 %/year}\n"
	want := recordOf(t, text)
	for _, form := range []string{
		"  wet_per_day: 425 kg/day\n" + growth + season,
		"  dry_per_year: 31046.25 kg/year\n" + growth + season,
		"  wet_per_year: 155231.25 kg/year\n" + growth + season,
		"  dry_by_year: {2025: 31 t, 2027: 31025 kg}\n" + growth + season,
		"  wet_by_year: {2027: 155125 kg}\n" + growth + season,
		"  dry_by_month: " + masses(1) + "\n" + growth,
		"  wet_by_month: " + masses(5) + "\n" + growth,
	} {
		got := recordOf(t, edited(t, text, production, form))
		for _, f := range []figure{cakeDry, cakeWet, mixed, loads, diverted, chips, taken, oxidised} {
			if a, b := f.of(want), f.of(got); math.Abs(a-b) > 1e-6*math.Abs(a) {
				t.Errorf("%s: %s is %g, with dry_per_day %g", strings.TrimSpace(form), f.name, b, a)
			}
		}
	}
}

// productions are the keys of amounts, and of sources.
var productions = []option{
	{key: "solids.wet_per_day", base: []string{"dry_per_day: 85 kg/day", "wet_per_day: 425 kg/day"}, old: "425 kg/day", new: "500 kg/day", moves: up(cakeDry)},
	{key: "solids.cake_solids", base: []string{"dry_per_day: 85 kg/day", "wet_per_day: 425 kg/day"}, old: "cake_solids: 20 %", new: "cake_solids: 24 %", moves: up(cakeDry)},
	{key: "solids.dry_per_year", base: []string{"dry_per_day: 85 kg/day", "dry_per_year: 31 t/year"}, old: "31 t/year", new: "41 t/year", moves: up(diverted)},
	{key: "solids.wet_per_year", base: []string{"dry_per_day: 85 kg/day", "wet_per_year: 155 t/year"}, old: "155 t/year", new: "205 t/year", moves: up(diverted)},
	{key: "solids.dry_by_year", base: []string{"dry_per_day: 85 kg/day", "dry_by_year: {2026: 31 t}"}, old: "2026: 31 t", new: "2026: 31 t, 2027: 41 t", moves: up(cakeDry)},
	{key: "solids.wet_by_year", base: []string{"dry_per_day: 85 kg/day", "wet_by_year: {2026: 155 t}"}, old: "2026: 155 t", new: "2026: 155 t, 2027: 205 t", moves: up(cakeDry)},
	{key: "solids.dry_by_month", base: []string{"dry_per_day: 85 kg/day", "dry_by_month: 2.7 t", season, ""}, old: "2.7 t\n", new: "3.6 t\n", moves: up(cakeDry)},
	{key: "solids.wet_by_month", base: []string{"dry_per_day: 85 kg/day", "wet_by_month: 13 t", season, ""}, old: "13 t\n", new: "18 t\n", moves: up(cakeDry)},

	{key: "solids.sources.dry_per_day", base: sourced, old: "dry_per_day: 60 kg/day", new: "dry_per_day: 90 kg/day", moves: up(cakeDry)},
	{key: "solids.sources.wet_per_day", base: sourced, old: "wet_per_day: 100 kg/day", new: "wet_per_day: 150 kg/day", moves: up(cakeDry)},
	{key: "solids.sources.cake_solids", base: sourced, old: "cake_solids: 18 %", new: "cake_solids: 22 %", moves: down(cakeWet)},
	{key: "solids.sources.by_month", base: sourced, old: "by_month: 1,", new: "by_month: [3, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1],"},
	{key: "solids.sources.by_weekday", base: sourced, old: "by_weekday: 1}", new: "by_weekday: [1, 1, 1, 1, 1, 0, 0]}"},
	{key: "solids.sources.growth", base: sourced, old: "compound: 1 %/year", new: "compound: 9 %/year", moves: up(cakeDry)},
}

// chipSupplies are the keys of sources of chips.
var chipSupplies = []option{
	{key: "chips.sources.most_per_month", base: suppliers, old: "most_per_month: 30 yd3, ", new: "most_per_month: 60 yd3, "},
	{key: "chips.sources.moisture", base: suppliers, old: "moisture: 38 %, truckload: 30 yd3", new: "moisture: 45 %, truckload: 30 yd3"},
	{key: "chips.sources.bulk_density", base: suppliers, old: "bulk_density: 470 lb/yd3", new: "bulk_density: 400 lb/yd3"},
	{key: "chips.sources.truckload", base: suppliers, old: "truckload: 15 yd3", new: "truckload: 30 yd3", moves: down(trucks)},
	{key: "chips.sources.lead_time", base: suppliers, old: "lead_time: 4 day", new: "lead_time: 40 day"},
	{key: "chips.sources.lead_time_variation", base: suppliers, old: "lead_time_variation: 35 %", new: "lead_time_variation: 80 %"},
	{key: "chips.sources.own_per_day", base: suppliers, old: "own_per_day: 0.5 yd3/day", new: "own_per_day: 1 yd3/day", moves: up(ownChips)},
	{key: "chips.sources.fines", base: suppliers, old: "fines: 15 %", new: "fines: 40 %"},
	{key: "chips.sources.slowly_degradable", base: suppliers, old: "slowly_degradable: 35 %", new: "slowly_degradable: 70 %", moves: up(oxidised)},
	{key: "chips.sources.readily_degradable", base: suppliers, old: "fines: 15 %", new: "fines: 15 %, readily_degradable: 2 %"},
	{key: "chips.sources.volatile_solids", base: suppliers, old: "fines: 15 %", new: "fines: 15 %, volatile_solids: 90 %"},
	{key: "chips.sources.nitrogen", base: suppliers, old: "fines: 15 %", new: "fines: 15 %, nitrogen: 0.5 %"},
	{key: "chips.sources.carbon", base: suppliers, old: "fines: 15 %", new: "fines: 15 %, carbon: 52 %"},
}

var ownChips = total("chips that come by themselves", func(m *plant.Month) float64 { return m.Chips.Own })

// suppliers has two of them sell chips, the first a truckload a month, and wood of the
// plant's own beside.
var suppliers = []string{"  bulk_density: 490 lb/yd3\n  moisture: 38 %\n", "", "  truckload: 30 yd3\n  lead_time: 8 day\n  lead_time_variation: 35 %\n",
	"  sources:\n    - {name: sawmill, most_per_month: 30 yd3, bulk_density: 490 lb/yd3, moisture: 38 %, truckload: 30 yd3, lead_time: 8 day, lead_time_variation: 35 %}\n" +
		"    - {name: chipper, bulk_density: 470 lb/yd3, moisture: 36 %, truckload: 15 yd3, lead_time: 4 day}\n" +
		"    - {name: yard wood, own_per_day: 0.5 yd3/day, bulk_density: 450 lb/yd3, moisture: 45 %, fines: 15 %, slowly_degradable: 35 %}\n"}

// sourced has two plants send the cake, for two years.
var sourced = []string{"horizon: 1 year", "horizon: 2 year",
	production, "  sources:\n    - {name: north plant, dry_per_day: 60 kg/day, cake_solids: 18 %, by_month: 1, growth: {compound: 1 %/year}}\n" +
		"    - {name: south plant, wet_per_day: 100 kg/day, cake_solids: 25 %, by_weekday: 1}\n",
	"  by_weekday: {mon: 1.1, tue: 1.1, wed: 1.1, thu: 1.1, fri: 1.1, sat: 0.75, sun: 0.75}\n", "", "  cake_solids: 20 %\n", ""}
