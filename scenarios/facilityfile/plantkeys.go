package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// mostUnits is how many machines, people or places of a kind may be written, so
// that a typing error is named.
const mostUnits = 1000

// mostMachines is the same for machines each of which breaks down by itself: a plant of
// very many would do nothing else.
const mostMachines = 100

// mostPower, kW, is more than any machine of a plant takes.
const mostPower = 10_000

var holdingRows = []row[plant.Holding]{
	{Key{Path: "capacity_dry", Words: "dry solids that are held before a load is made; what does not fit is diverted", Dimension: units.Mass, Low: 1, High: mostMass},
		number(func(h *plant.Holding) *float64 { return &h.Capacity })},
	{Key{Path: "start_load_with", Words: "part of a vessel load that must be there before a vessel is begun", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(1, assumption)},
		number(func(h *plant.Holding) *float64 { return &h.StartWith })},
}

// slowestDewatering, kg dry per hour, keeps the making of a batch within days.
const slowestDewatering = 5

var dewateringRows = []row[plant.Dewatering]{
	{Key{Path: "rate_dry", Words: "dry solids that are dewatered while a batch asks for them", Dimension: units.MassPerTime,
		Low: slowestDewatering * perHour, High: 1e6 * perHour, Example: "0.4 short ton/h"},
		scaled(1, perHour, func(d *plant.Dewatering) *float64 { return &d.Rate })},
}

var recipeRows = []row[plant.Recipe]{
	{Key{Path: "chips_to_cake", Words: "chips for the cake, by loose volume", Dimension: units.Ratio, Low: 0.2, High: 10,
		Usual:     &Usual{2, 4, "below about 2.5 free air space falls under 20 %, Eftoda & McCartney, read; 2 failed at full scale, Ponsá et al., read"},
		Uncertain: instead("ratio of chips to cake")},
		number(func(r *plant.Recipe) *float64 { return &r.ChipsPerCake })},
}

var mixerRows = []row[plant.Mixer]{
	{Key{Path: "mixers", Words: "mixers, all alike; one batch in each at a time, for one vessel", Low: 1, High: mostMachines, Default: orElse(1, "")},
		whole(func(m *plant.Mixer) *int { return &m.Count })},
	{Key{Path: "batch_volume", Words: "mix that a mixer holds", Dimension: units.Volume, Low: 0.2, High: 200},
		number(func(m *plant.Mixer) *float64 { return &m.Volume })},
	{Key{Path: "batch_scale", Words: "most that its scale weighs", Dimension: units.Mass, Low: 100, High: 200_000},
		number(func(m *plant.Mixer) *float64 { return &m.Scale })},
	{Key{Path: "batch_time", Words: "load, mix, discharge", Dimension: units.Duration, Low: 60, High: 24 * hour, Example: "25 min"},
		span(func(m *plant.Mixer) *sim.Duration { return &m.BatchTime })},
	{Key{Path: "power", Words: "of a mixer while at work; for its cost", Dimension: units.Power, Low: 0, High: mostPower, Default: orElse(0, "not known"), Example: "60 kW"},
		number(func(m *plant.Mixer) *float64 { return &m.Power })},
}

var vesselRows = []row[plant.Vessels]{
	{Key{Path: "installed", Words: "vessels on the first day", Low: 1, High: mostUnits, When: "without classes", Example: "4"},
		whole(func(v *plant.Vessels) *int { return &v.Installed })},
	{Key{Path: "useful_volume", Words: "mix that a vessel holds", Dimension: units.Volume, Low: 0.5, High: 5000, When: "without classes that all have one", Example: "40 yd3"},
		number(func(v *plant.Vessels) *float64 { return &v.Volume })},
	{Key{Path: "payload", Words: "most wet mass that a vessel may carry", Dimension: units.Mass, Low: 500, High: 5e6,
		Default: elseAs("no limit, for vessels that are not carried", ""), Example: "20 short ton"},
		number(func(v *plant.Vessels) *float64 { return &v.Payload })},
	{Key{Path: "residence", Words: "time in the vessel that is aimed at", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear,
		Usual: &Usual{10 * day, 21 * day, "10 to 20 days in practice, common practice, no source"},
		// The shortest residence is shortened with it where it must be; the longest
		// stays, and no longer one is drawn.
		Uncertain: &Uncertainty{Name: "residence in a vessel", Set: func(p Parts, v float64) {
			p.Model.Vessels.Residence = sim.DurationOf(v)
			p.Model.Vessels.Minimum = min(p.Model.Vessels.Minimum, p.Model.Vessels.Residence)
		}}},
		span(func(v *plant.Vessels) *sim.Duration { return &v.Residence })},
	{Key{Path: "early_release", Words: "when cake waits, every vessel is full and the load is compliant", Default: elseAs("false", assumption), Example: "true"},
		flag(func(v *plant.Vessels) *bool { return &v.Early })},
	{Key{Path: "turnaround", Words: "empty, inspect, bring back", Dimension: units.Duration, Low: 0, High: 60 * day, Default: orElse(day, assumption), Uncertain: instead("turnaround of a vessel")},
		span(func(v *plant.Vessels) *sim.Duration { return &v.Turnaround })},
	{Key{Path: "part_filled_wait", Words: "then a part-filled vessel is sent off as it is", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear, Default: orElse(7*day, assumption)},
		span(func(v *plant.Vessels) *sim.Duration { return &v.PartFilled })},
}

// residenceRows take their defaults from the residence.
var residenceRows = []row[plant.Vessels]{
	{Key{Path: "shortest_residence", Words: "for early release", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear, Default: elseAs("the residence", "")},
		span(func(v *plant.Vessels) *sim.Duration { return &v.Minimum })},
	{Key{Path: "longest_residence", Words: "a load not yet compliant by then is hauled away", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear,
		Default: elseAs("one and a half times the residence", assumption)},
		span(func(v *plant.Vessels) *sim.Duration { return &v.Maximum })},
}

// longestLead is the longest time between an order and what was ordered.
const longestLead = 20 * calendar.SecondsPerYear

var vesselOrderRows = []row[Planning]{
	{Key{Path: "lead_time", Words: "from the order of a vessel until it can be loaded; months and years by the calendar", Dimension: units.Duration, Low: 0, High: longestLead,
		Default: orElse(calendar.SecondsPerYear, "common practice, no source"), UsedBy: ForPlanning},
		byCalendar(func(p *Planning) *calendar.Span { return &p.VesselLead })},
}

var roomRows = []row[Planning]{
	{Key{Path: "room_for", Words: "vessels that there is room for, those installed included", Low: 1, High: mostUnits, Default: elseAs("those of the file's changes", ""), UsedBy: ForPlanning},
		whole(func(p *Planning) *int { return &p.RoomFor })},
}

var maintenanceRows = []row[plant.Maintenance]{
	{Key{Path: "every", Words: "from one maintenance to the next", Dimension: units.Duration, Low: day, High: 50 * calendar.SecondsPerYear, Example: "2 year"},
		span(func(m *plant.Maintenance) *sim.Duration { return &m.Every })},
	{Key{Path: "takes", Words: "time out of use", Dimension: units.Duration, Low: hour, High: calendar.SecondsPerYear, Example: "5 day"},
		span(func(m *plant.Maintenance) *sim.Duration { return &m.Takes })},
}

var enough = elseAs("never short", "")

var yardRows = []row[plant.Yard]{
	{Key{Path: "trucks", Words: "carry vessels to an aerated place, to the tip floor and back", Low: 1, High: mostMachines, Default: enough, Example: "1"},
		whole(func(y *plant.Yard) *int { return &y.Trucks.Count })},
	{Key{Path: "aerated_places", Words: "where vessels stand on air", Low: 1, High: mostUnits, Default: enough, Example: "8"},
		whole(func(y *plant.Yard) *int { return &y.Places })},
	{Key{Path: "loading_places", Words: "at the mixer, where a full vessel waits for the truck", Low: 1, High: mostUnits, Default: enough, Example: "1"},
		whole(func(y *plant.Yard) *int { return &y.LoadingPlaces })},
	{Key{Path: "loaders", Words: "one for every batch and every lot on the screen", Low: 1, High: mostMachines, Default: enough, Example: "1"},
		whole(func(y *plant.Yard) *int { return &y.Loaders.Count })},
	{Key{Path: "operators", Words: "the same, and one for every move", Low: 1, High: mostUnits, Default: enough, Example: "2"},
		whole(func(y *plant.Yard) *int { return &y.Operators.Count })},
}

// moveRows are read where a truck needs them, or where they are written.
var moveRows = []row[plant.Yard]{
	{Key{Path: "move", Words: "of a vessel, one way", Dimension: units.Duration, Low: 60, High: 24 * hour, When: "with trucks", Example: "25 min"},
		span(func(y *plant.Yard) *sim.Duration { return &y.Move })},
}

var failureRows = []row[plant.Failure]{
	{Key{Path: "every", Words: "mean time between breakdowns, by the calendar", Dimension: units.Duration, Low: hour, High: 50 * calendar.SecondsPerYear, Example: "90 day"},
		span(func(f *plant.Failure) *sim.Duration { return &f.Every })},
	{Key{Path: "repair", Words: "mean time of a repair", Dimension: units.Duration, Low: 60, High: calendar.SecondsPerYear, Example: "8 h"},
		span(func(f *plant.Failure) *sim.Duration { return &f.Repair })},
}

var curingTimeRows = []row[plant.Curing]{
	{Key{Path: "time", Words: "on the curing pad; 0 day for a plant that does not cure", Dimension: units.Duration, Low: 0, High: 3 * calendar.SecondsPerYear,
		Usual: &Usual{21 * day, 180 * day, "a month or more, common practice, no source"}},
		span(func(c *plant.Curing) *sim.Duration { return &c.Time })},
}

var curingRows = []row[plant.Curing]{
	{Key{Path: "longest_time", Words: "a lot waits no longer for its criteria or stability", Dimension: units.Duration, Low: 0, High: 6 * calendar.SecondsPerYear,
		Default: elseAs("twice the time", assumption), Example: "90 day"},
		span(func(c *plant.Curing) *sim.Duration { return &c.Longest })},
	{Key{Path: "readily_left", Words: "part of the readily degradable solids loaded, at most, before screening", Dimension: units.Fraction, Low: 0.001, High: 1,
		Default: orElse(1, "no limit"), Example: "40 %"},
		number(func(c *plant.Curing) *float64 { return &c.ReadilyLeft })},
}

var padRows = []row[plant.Curing]{
	{Key{Path: "pad", Words: "mix that the pad holds", Dimension: units.Volume, Low: 0.1, High: mostVolume, When: "without pad_area"},
		number(func(c *plant.Curing) *float64 { return &c.Capacity })},
}

// padArea is turned into a volume by the piles on it.
var padArea = Key{Path: "pad_area", Words: "area of the pad, in place of pad; with pile", Dimension: units.Area, Low: 1, High: 1e6, When: "without pad", Example: "12,000 ft2"}

// The largest piles of chips and compost that a fire code allows, for fear of
// self-heating, m.
const (
	highestPile, widestPile = 7.6, 45.7
	fireCode                = "piles at most 7.6 m high and 45.7 m wide, they heat themselves, IFC 2808.3, read"
)

var pileRows = []row[plant.Windrow]{
	{Key{Path: "height", Words: "of the piles", Dimension: units.Length, Low: 0.1, High: 30, Usual: &Usual{0, highestPile, fireCode}, Example: "8 ft"},
		number(func(w *plant.Windrow) *float64 { return &w.Height })},
	{Key{Path: "width", Words: "of a pile at its foot", Dimension: units.Length, Low: 0.1, High: 200, Usual: &Usual{0, widestPile, fireCode}, Example: "20 ft"},
		number(func(w *plant.Windrow) *float64 { return &w.Width })},
	{Key{Path: "aisle", Words: "between one pile and the next", Dimension: units.Length, Low: 0, High: 100, Example: "12 ft"},
		number(func(w *plant.Windrow) *float64 { return &w.Aisle })},
}

var pileTopRows = []row[plant.Windrow]{
	{Key{Path: "top_width", Words: "of the flat top", Dimension: units.Length, Low: 0, High: 200, Default: elseAs("sides at 45°", "common practice, no source"), Example: "4 ft"},
		number(func(w *plant.Windrow) *float64 { return &w.Top })},
}

var productRows = []row[plant.Product]{
	{Key{Path: "store", Words: "room for screened compost", Dimension: units.Volume, Low: 0.1, High: mostVolume},
		number(func(p *plant.Product) *float64 { return &p.Capacity })},
	{Key{Path: "demand_per_day", Words: "what is asked for a day, each month", Dimension: units.Volume, Low: 0, High: mostVolume,
		Uncertain: times("demand for product", 100, func(p Parts, v float64) { scale(&p.Model.Product.Demand, v) })},
		monthly(func(p *plant.Product) *[12]float64 { return &p.Demand })},
}

var bedRows = []row[plant.Air]{
	{Key{Path: "area", Words: "of the biofilter's bed", Dimension: units.Area, Low: 0.1, High: 1e6, When: "with loading", Example: "1,400 ft2"},
		number(func(a *plant.Air) *float64 { return &a.Area })},
	{Key{Path: "loading", Words: "air that the bed takes", Dimension: units.VolumePerAreaTime, Low: 0.1 * perHour, High: 10_000 * perHour,
		Usual: &Usual{50 * perHour, 100 * perHour, "50 to 100 m3/h per m2, from memory and practice"}, When: "with area", Example: "4 cfm/ft2"},
		scaled(1, perHour, func(a *plant.Air) *float64 { return &a.Loading })},
}

var mediaRows = []row[plant.Media]{
	{Key{Path: "media", Words: "fresh chips that the bed is made of", Dimension: units.Volume, Low: 0.1, High: mostVolume, When: "with replaced_every", Example: "60 yd3"},
		number(func(m *plant.Media) *float64 { return &m.Volume })},
	{Key{Path: "replaced_every", Words: "from one new bed to the next", Dimension: units.Duration, Low: 30 * day, High: 30 * calendar.SecondsPerYear,
		Usual: &Usual{2 * calendar.SecondsPerYear, 5 * calendar.SecondsPerYear, "2 to 5 years, from memory and practice"}, When: "with media", Example: "3 year"},
		span(func(m *plant.Media) *sim.Duration { return &m.Every })},
}
