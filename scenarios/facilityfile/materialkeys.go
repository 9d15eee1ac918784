package facilityfile

import (
	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

const farmHandbook = "NRAES-54 App. A, third party's copy"

// compositionRows are what the dry solids of a material are made of.
func compositionRows(nitrogen *Usual) []row[material.Spec] {
	return []row[material.Spec]{
		{Key{Path: "volatile_solids", Words: "part of the dry solids that burns off", Dimension: units.Fraction, Low: 0.05, High: 1},
			number(func(s *material.Spec) *float64 { return &s.Volatile })},
		{Key{Path: "readily_degradable", Words: "part of the volatile solids that degrades within weeks", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(0, assumption), Example: "1 %"},
			number(func(s *material.Spec) *float64 { return &s.Readily })},
		{Key{Path: "slowly_degradable", Words: "part of the volatile solids that degrades within months", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(0, assumption), Example: "8 %"},
			number(func(s *material.Spec) *float64 { return &s.Slowly })},
		{Key{Path: "nitrogen", Words: "part of the dry solids", Dimension: units.Fraction, Low: 0, High: 0.2, Usual: nitrogen},
			number(func(s *material.Spec) *float64 { return &s.Nitrogen })},
		{Key{Path: "carbon", Words: "part of the dry solids", Dimension: units.Fraction, Low: 0, High: 0.7,
			Default: elseAs("volatile solids / 1.8", "common practice in compost mix design"), Example: "45 %"},
			number(func(s *material.Spec) *float64 { return &s.Carbon })},
	}
}

// fineRows are compositionRows with what chips do not have.
func fineRows(nitrogen *Usual) []row[material.Spec] {
	return append(compositionRows(nitrogen), rapidRow)
}

// cakeRows are those of the cake, some of which may be uncertain.
var cakeRows = func() []row[material.Spec] {
	rows := fineRows(&Usual{0.015, 0.09, "digested biosolids about 1.9 %, from memory; raw and waste activated solids more"})
	rows[0].Uncertain = instead("volatile solids of the cake")
	rows[1].Uncertain = instead("readily degradable part of cake")
	rows[3].Uncertain = instead("nitrogen of the cake")
	rows[5].Uncertain = instead("rapidly degradable part of cake")
	return rows
}()

var chipsSpecRows = compositionRows(&Usual{0.0004, 0.0023, "wood chips 0.04 to 0.23 % nitrogen, " + farmHandbook})

// deliveredRows, with supplyRows, are those of the one supplier of chips, or of each.
var deliveredRows = []row[plant.Chips]{
	{Key{Path: "bulk_density", Words: "loose, as delivered, at the moisture below", Dimension: units.MassPerVolume, Low: 80, High: 800, When: withoutSources, Example: "490 lb/yd3",
		Usual: &Usual{180, 400, "wood chips 264 to 368 kg/m3, " + farmHandbook}},
		number(func(c *plant.Chips) *float64 { return &c.Fresh.BulkDensity })},
	{Key{Path: "moisture", Words: "water of the deliveries by wet mass, each month", Dimension: units.Fraction, Low: 0, High: 0.7, When: withoutSources, Example: "35 %",
		Usual: &Usual{0.15, 0.50, "wood chips 15 to 40 %, " + farmHandbook + "; wetter in winter"},
		Uncertain: added("moisture of chips", units.Fraction, -0.4, 0.4,
			func(p Parts, v float64) { p.Model.Chips.Wetter(v) })},
		monthly(func(c *plant.Chips) *[12]float64 { return &c.Moisture })},
}

// chipsRows are those of all chips.
var chipsRows = []row[plant.Chips]{
	{Key{Path: "fines", Words: "part of the dry mass that falls through the screen when new", Dimension: units.Fraction, Low: 0, High: 0.9, Default: orElse(0.04, assumption)},
		quantity(func(c *plant.Chips) float64 { return 1 - c.Fresh.Coarse }, func(c *plant.Chips, v float64) { c.Fresh.Coarse = 1 - v })},
	{Key{Path: "store", Words: "room for fresh chips", Dimension: units.Volume, Low: 0.1, High: mostVolume},
		number(func(c *plant.Chips) *float64 { return &c.Capacity })},
	{Key{Path: "reorder_at", Words: "chips on hand and on order at which more are ordered", Dimension: units.Volume, Low: 0, High: mostVolume},
		number(func(c *plant.Chips) *float64 { return &c.Reorder })},
	{Key{Path: "order_up_to", Words: "chips on hand and on order after an order", Dimension: units.Volume, Low: 0.1, High: mostVolume},
		number(func(c *plant.Chips) *float64 { return &c.OrderUpTo })},
}

var supplyRows = []row[plant.Chips]{
	{Key{Path: "truckload", Words: "chips that one delivery brings", Dimension: units.Volume, Low: 0.1, High: 10_000, When: withoutSources, Example: "90 yd3"},
		number(func(c *plant.Chips) *float64 { return &c.Truckload })},
	{Key{Path: "lead_time", Words: "from order to delivery, in the mean", Dimension: units.Duration, Low: 0, High: calendar.SecondsPerYear, When: withoutSources, Example: "6 day", Uncertain: instead("lead time of chips")},
		span(func(c *plant.Chips) *sim.Duration { return &c.LeadTime })},
	{Key{Path: "lead_time_variation", Words: "spread of the lead time, of itself", Dimension: units.Fraction, Low: 0, High: 2, Default: orElse(0, assumption), Example: "35 %"},
		number(func(c *plant.Chips) *float64 { return &c.LeadCV })},
}

// chipsPriceRows: a design of a mix without the price uses as few chips as it can.
var chipsPriceRows = []row[MixDesign]{
	{Key{Path: "price", Words: "of fresh chips, delivered", Dimension: units.MoneyPerVolume, Low: 0, High: 10_000, Default: elseAs("not known", ""),
		Example: "11 USD/yd3", UsedBy: ForPlanning,
		Uncertain: &Uncertainty{Name: "price of chips", Set: func(p Parts, v float64) { p.Economy.Prices.Chips.Amount = v }}},
		number(func(d *MixDesign) *float64 { return &d.ChipsPrice })},
}

var feedstockRows = []row[plant.Feedstock]{
	{Key{Path: "name", Words: "name of the material", Example: "hauled-in manure", UsedBy: ForShowing},
		text(func(f *plant.Feedstock) *string { return &f.Material.Name })},
	{Key{Path: "dry_per_day", Words: "dry solids that arrive, mean of the week, each month", Dimension: units.MassPerTime, Low: 0, High: mostDryPerDay},
		monthly(func(f *plant.Feedstock) *[12]float64 { return &f.PerDay })},
	{Key{Path: "by_weekday", Words: "relative amounts of the weekdays; the mean is made 1", Dimension: units.Ratio, Low: 0, High: mostRelative, Default: orElse(1, "as much every day")},
		weekly(func(f *plant.Feedstock) *[7]float64 { return &f.Weekday })},
	{Key{Path: "variation", Words: "spread from day to day, of itself", Dimension: units.Fraction, Low: 0, High: 2, Default: orElse(0, assumption), Example: "30 %"},
		number(func(f *plant.Feedstock) *float64 { return &f.CV })},
	{Key{Path: "solids", Words: "solids content as it arrives", Dimension: units.Fraction, Low: 0.02, High: 0.98},
		quantity(func(f *plant.Feedstock) float64 { return 1 - f.Material.Moisture }, func(f *plant.Feedstock, v float64) { f.Material.Moisture = 1 - v })},
}

// targetRows are what a mix is designed for, beside its windows.
var mixTargetRows = []row[mix.Targets]{
	{Key{Path: "free_air_space", Words: "air per volume of the mix, at least", Dimension: units.Fraction, Low: 0, High: 0.7,
		Usual:   &Usual{0.2, 0.5, "20 % and more with chips, Eftoda & McCartney, read"},
		Default: orElse(DefaultMixTargets().FreeAirSpace, "20 %, Eftoda & McCartney, read, and 3 points for cake that varies; 30 % where all air counts, from memory"), UsedBy: ForMixing},
		number(func(t *mix.Targets) *float64 { return &t.FreeAirSpace })},
	{Key{Path: "bulk_density", Words: "of the mix, at most", Dimension: units.MassPerVolume, Low: 200, High: 1500,
		Usual:   &Usual{475, 800, "475 to 712 kg/m3, LSU AgCenter 3838-D, read"},
		Default: orElse(DefaultMixTargets().BulkDensity, "LSU AgCenter 3838-D, after NRAES-54, read"), UsedBy: ForMixing},
		number(func(t *mix.Targets) *float64 { return &t.BulkDensity })},
}

// mixWindow is a target with two ends, of which either may be left out.
type mixWindow struct {
	path, words string
	dim         units.Dimension
	most        float64
	least, upTo string // examples of its ends
	at          func(*mix.Targets) *mix.Window
}

var mixWindows = []mixWindow{
	{"solids", "solids content of the mix", units.Fraction, 1, "35 %", "45 %", func(t *mix.Targets) *mix.Window { return &t.Solids }},
	{"carbon_to_nitrogen", "ratio of carbon to nitrogen, by mass", units.Ratio, 200, "25", "35", func(t *mix.Targets) *mix.Window { return &t.CarbonToNitrogen }},
	{"chips_to_cake", "ratio of chips to cake, by loose volume", units.Ratio, 20, "2", "4", func(t *mix.Targets) *mix.Window { return &t.ChipsToCake }},
}

// rows are the two ends of a window.
func (w mixWindow) rows() []row[mix.Window] {
	none := elseAs("no limit", "")
	return []row[mix.Window]{
		{Key{Path: "at_least", Words: w.words + ", at least", Dimension: w.dim, Low: 0, High: w.most, Default: none, Example: w.least, UsedBy: ForMixing},
			number(func(w *mix.Window) *float64 { return &w.Low })},
		{Key{Path: "at_most", Words: w.words + ", at most", Dimension: w.dim, Low: 0, High: w.most, Default: none, Example: w.upTo, UsedBy: ForMixing},
			number(func(w *mix.Window) *float64 { return &w.High })},
	}
}

// amendment is a material that a design may add, as the file has it.
type amendment struct {
	material.Spec
	most float64 // m3 for each vessel load; negative for any amount
}

var amendmentRows = []row[amendment]{
	{Key{Path: "name", Words: "name of the material", Example: "sawdust", UsedBy: ForMixing},
		text(func(a *amendment) *string { return &a.Name })},
	{Key{Path: "moisture", Words: "water by wet mass", Dimension: units.Fraction, Low: 0, High: 0.9, UsedBy: ForMixing},
		number(func(a *amendment) *float64 { return &a.Moisture })},
	{Key{Path: "coarse", Words: "part of the dry mass that the screen gives back", Dimension: units.Fraction, Low: 0, High: 1, Default: orElse(0, assumption), UsedBy: ForMixing},
		number(func(a *amendment) *float64 { return &a.Coarse })},
	{Key{Path: "bulk_density", Words: "loose, as delivered", Dimension: units.MassPerVolume, Low: 30, High: 1500, UsedBy: ForMixing},
		number(func(a *amendment) *float64 { return &a.BulkDensity })},
	{Key{Path: "available_per_load", Words: "for one vessel load", Dimension: units.Volume, Low: 0, High: mostVolume, Default: elseAs("any amount", ""), UsedBy: ForMixing},
		number(func(a *amendment) *float64 { return &a.most })},
}

// amendmentCost is written per volume as delivered, or per mass.
var amendmentCost = Key{Path: "cost", Words: "per volume as delivered, or per mass", Dimension: units.MoneyPerVolume, Low: 0, High: 1e6, Example: "16 USD/yd3", UsedBy: ForMixing}
