package simulate_test

import (
	"testing"

	"loamcast/facility/plant"
)

// resourceUse is the figure that adds up a number of a resource in every month.
func resourceUse(name string, resource plant.Resource, of func(plant.Use) float64) figure {
	return total(plant.ResourceNames[resource]+" "+name, func(m *plant.Month) float64 { return of(m.Use[resource]) })
}

func busy(resource plant.Resource) figure {
	return resourceUse("at work", resource, func(u plant.Use) float64 { return u.Busy })
}

func broken(resource plant.Resource) figure {
	return resourceUse("out of order", resource, func(u plant.Use) float64 { return u.Down })
}

func scheduled(resource plant.Resource) figure {
	return resourceUse("on shift", resource, func(u plant.Use) float64 { return u.Scheduled })
}

// waits is the figure of the time that solids waited for a cause.
func waits(cause plant.Cause) figure {
	return total("wait for "+cause.String(), func(m *plant.Month) float64 { return m.Waits[cause] })
}

var (
	feedstocks = total("feedstocks", func(m *plant.Month) float64 { return m.Feed.FeedstockDry })
	media      = total("media of the biofilter", func(m *plant.Month) float64 { return m.Chips.Biofilter })
	padPeak    = total("pad in use", func(m *plant.Month) float64 { return m.Curing.PadPeak })
	machines   = total("energy of mixer and screen", func(m *plant.Month) float64 { return m.Work.MachineEnergy })
	overAir    = total("hours above the air", func(m *plant.Month) float64 { return m.Air.HoursOver })
	unstable   = total("unstable lots", func(m *plant.Month) float64 { return m.Curing.Unstable })
)

// operations are the keys of the yard's file.
var operations = []option{
	{key: "solids.pulses.from", old: "from: 2027-04-01", new: "from: 2027-12-25", moves: down(cakeDry)},
	{key: "solids.pulses.for", old: "for: 14 day, dry_per_day: 80", new: "for: 28 day, dry_per_day: 80", moves: up(cakeDry)},
	{key: "solids.pulses.dry_per_day", old: "dry_per_day: 80 kg/day", new: "dry_per_day: 160 kg/day", moves: up(diverted)},

	{key: "feedstocks.dry_per_day", old: "dry_per_day: 20 kg/day", new: "dry_per_day: 30 kg/day", moves: up(feedstocks)},
	{key: "feedstocks.by_weekday", old: "sat: 0, sun: 0", new: "sat: 3, sun: 3"},
	{key: "feedstocks.variation", old: "variation: 30 %", new: "variation: 60 %"},
	{key: "feedstocks.solids", old: "solids: 28 %", new: "solids: 35 %", moves: down(cakeWet)},
	{key: "feedstocks.volatile_solids", old: "volatile_solids: 80 %", new: "volatile_solids: 76 %"},
	{key: "feedstocks.readily_degradable", old: "readily_degradable: 20 %", new: "readily_degradable: 30 %", moves: up(oxidised)},
	{key: "feedstocks.slowly_degradable", old: "slowly_degradable: 30 %", new: "slowly_degradable: 10 %", moves: down(oxidised)},
	{key: "feedstocks.rapidly_degradable", old: "slowly_degradable: 30 %", new: "slowly_degradable: 30 %\n    rapidly_degradable: 10 %", moves: up(oxidised)},
	{key: "feedstocks.nitrogen", old: "nitrogen: 3 %", new: "nitrogen: 4 %"},
	{key: "feedstocks.carbon", old: "carbon: 45 %", new: "carbon: 43 %"},

	{key: "dewatering.rate_dry", old: "rate_dry: 150 kg/h", new: "rate_dry: 75 kg/h", moves: up(busy(plant.Mixers))},

	{key: "mix.power", old: "power: 60 kW", new: "power: 90 kW", moves: up(machines)},
	{key: "mix.mixers", old: "  mixers: 1\n  batch", new: "  mixers: 2\n  batch", moves: up(scheduled(plant.Mixers))},
	{key: "screen.screens", old: "  screens: 1\n  order", new: "  screens: 2\n  order", moves: up(scheduled(plant.Screens))},
	{key: "screen.power", old: "power: 25 kW", new: "power: 45 kW", moves: up(machines)},
	{key: "aeration.blowers", old: "blowers: 400 cfm", new: "blowers: 100 cfm", moves: up(overAir)},
	{key: "biofilter.area", old: "area: 120 ft2", new: "area: 30 ft2", moves: up(overAir)},
	{key: "biofilter.loading", old: "loading: 4 cfm/ft2", new: "loading: 1 cfm/ft2", moves: up(overAir)},

	{key: "vessels.maintenance.every", old: "every: 90 day", new: "every: 30 day"},
	{key: "vessels.maintenance.takes", old: "takes: 5 day", new: "takes: 30 day", moves: down(loads)},

	{key: "yard.trucks", old: "trucks: 1\n  move: 40 min", new: "trucks: 2\n  move: 40 min", moves: up(scheduled(plant.Trucks))},
	{key: "yard.move", old: "move: 40 min", new: "move: 4 h", moves: up(busy(plant.Trucks))},
	{key: "yard.aerated_places", old: "aerated_places: 1", new: "aerated_places: 2", moves: down(waits(plant.NoPlace))},
	{key: "yard.place_maintenance.every", old: "every: 150 day, takes: 2 h", new: "every: 20 day, takes: 2 h", moves: up(waits(plant.NoPlace))},
	{key: "yard.place_maintenance.takes", old: "every: 150 day, takes: 2 h", new: "every: 150 day, takes: 20 day", moves: up(waits(plant.NoPlace))},
	{key: "yard.loading_places", old: "loading_places: 1", new: "loading_places: 2"},
	{key: "yard.loaders", old: "  loaders: 1\n  operators: 1\n\n", new: "  loaders: 2\n  operators: 1\n\n", moves: up(scheduled(plant.Loaders))},
	{key: "yard.operators", old: "  operators: 1\n\n", new: "  operators: 2\n\n", moves: up(scheduled(plant.Operators))},

	{key: "breakdowns.mixer.every", old: "mixer: {every: 20 day", new: "mixer: {every: 5 day", moves: up(broken(plant.Mixers))},
	{key: "breakdowns.mixer.repair", old: "  mixer: {every: 20 day, repair: 1 day}", new: "  mixer: {every: 20 day, repair: 4 day}", moves: up(broken(plant.Mixers))},
	{key: "breakdowns.screen.every", old: "screen: {every: 20 day", new: "screen: {every: 5 day", moves: up(broken(plant.Screens))},
	{key: "breakdowns.screen.repair", old: "  screen: {every: 20 day, repair: 1 day}", new: "  screen: {every: 20 day, repair: 4 day}", moves: up(broken(plant.Screens))},
	{key: "breakdowns.truck.every", old: "truck: {every: 20 day", new: "truck: {every: 5 day", moves: up(broken(plant.Trucks))},
	{key: "breakdowns.truck.repair", old: "  truck: {every: 20 day, repair: 1 day}", new: "  truck: {every: 20 day, repair: 4 day}", moves: up(broken(plant.Trucks))},
	{key: "breakdowns.loader.every", old: "loader: {every: 20 day", new: "loader: {every: 5 day", moves: up(broken(plant.Loaders))},
	{key: "breakdowns.loader.repair", old: "  loader: {every: 20 day, repair: 1 day}", new: "  loader: {every: 20 day, repair: 4 day}", moves: up(broken(plant.Loaders))},

	{key: "curing.pad_area", old: "pad_area: 120 m2", new: "pad_area: 40 m2", moves: down(padPeak)},
	{key: "curing.pile.height", old: "height: 1.5 m", new: "height: 0.5 m", moves: down(padPeak)},
	{key: "curing.pile.width", old: "width: 4 m", new: "width: 2 m", moves: down(padPeak), base: []string{"pad_area: 120 m2", "pad_area: 45 m2"}},
	{key: "curing.pile.aisle", old: "aisle: 3 m", new: "aisle: 30 m", moves: down(padPeak)},
	{key: "curing.pile.top_width", old: "top_width: 0 m", new: "top_width: 4 m", moves: up(padPeak),
		base: []string{"aisle: 3 m, top_width: 1 m", "aisle: 20 m, top_width: 0 m"}},
	{key: "curing.readily_left", old: "readily_left: 60 %", new: "readily_left: 0.1 %", moves: up(unstable)},

	{key: "screen.order", old: "order: cure then screen", new: "order: screen then cure", moves: down(padPeak)},

	{key: "biofilter.media", old: "media: 12 yd3", new: "media: 20 yd3", moves: up(media), base: []string{"replaced_every: 3 year", "replaced_every: 100 day"}},
	{key: "biofilter.replaced_every", old: "replaced_every: 3 year", new: "replaced_every: 60 day", moves: up(media)},

	{key: "hours.mixing.week", old: "mixing:\n    week: {mon: [07:00-12:00], ", new: "mixing:\n    week: {", moves: down(scheduled(plant.Mixers))},
	{key: "hours.screening.week", old: "screening:\n    week: {tue: [07:00-15:30], ", new: "screening:\n    week: {", moves: down(scheduled(plant.Screens))},
	{key: "hours.dewatering.week", old: "dewatering:\n    week: {mon: [08:00-14:00], tue: [08:00-14:00], ", new: "dewatering:\n    week: {"},

	{key: "changes.date", old: "date: 2027-05-01", new: "date: 2027-02-01", moves: up(installed)},
	{key: "changes.lead_time", old: "lead_time: 2 month", new: "lead_time: 5 month", moves: down(installed)},
	{key: "changes.vessels", old: "    vessels: 1\n", new: "    vessels: 2\n", moves: up(installed)},
	{key: "changes.places", old: "    places: 1\n", new: "    places: 2\n", moves: down(waits(plant.NoPlace))},
	{key: "changes.trucks", old: "    trucks: 1\n", new: "    trucks: 2\n", moves: up(scheduled(plant.Trucks))},
	{key: "changes.loaders", old: "    loaders: 1\n", new: "    loaders: 2\n", moves: up(scheduled(plant.Loaders))},
	{key: "changes.operators", old: "    operators: 1\n", new: "    operators: 2\n", moves: up(scheduled(plant.Operators))},
	{key: "changes.mixers", old: "    mixers: 1\n", new: "    mixers: 2\n", moves: up(scheduled(plant.Mixers))},
	{key: "changes.screens", old: "    screens: 1\n", new: "    screens: 2\n", moves: up(scheduled(plant.Screens))},
	{key: "changes.pad", old: "    pad: 20 yd3\n", new: "    pad: 60 yd3\n", moves: up(padPeak), base: []string{"pad_area: 120 m2", "pad_area: 40 m2"}},
	{key: "changes.holding_dry", old: "holding_dry: 0.5 t", new: "holding_dry: 2.5 t", moves: down(diverted), base: []string{"dry_per_day: 100 kg/day", "dry_per_day: 200 kg/day"}},
	{key: "changes.product_store", old: "product_store: 10 yd3", new: "product_store: 40 yd3", moves: up(stock), base: []string{"demand_per_day: 1.5 yd3", "demand_per_day: 0.05 yd3"}},
	{key: "changes.screen_throughput", old: "screen_throughput: 12 yd3/h", new: "screen_throughput: 24 yd3/h", moves: down(screenFor)},
	{key: "changes.cake_solids", old: "cake_solids: 2 %\n", new: "cake_solids: 5 %\n", moves: down(cakeWet)},
	{key: "changes.when.held_above", old: "held_above: 60 %", new: "held_above: 95 %"},
	{key: "changes.when.for", old: "held_above: 60 %, for: 10 day", new: "held_above: 60 %, for: 60 day"},
	{key: "changes.when.production", old: "production: 90 kg/day", new: "production: 200 kg/day", moves: down(scheduled(plant.Mixers)),
		base: []string{"horizon: 1 year", "horizon: 2 year", "held_above: 60 %, for: 10 day", "production: 90 kg/day"}},
	{key: "changes.week", old: "sat: [06:00-12:00]", new: "sat: [06:00-18:00]", moves: up(scheduled(plant.Mixers))},
}

// Every key of the operations moves what is simulated, as every other does.
func TestEveryOperationMatters(t *testing.T) {
	everyOptionMatters(t, readText(t, yardFile), operations)
}
