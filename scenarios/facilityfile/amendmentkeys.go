package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// mostAmendment, m3 per m3 of cake, is more than a mix ever takes.
const mostAmendment = 5

// inRecipe is an amendment of the recipe, as the file has it.
type inRecipe struct {
	plant.Amendment
	name     string
	ownPrice float64 // USD/m3
}

var recipeAmendmentRows = []row[inRecipe]{
	{Key{Path: "material", Words: "name of one of the materials; product: screened compost, unless a material has this name", Example: "sawdust"},
		text(func(a *inRecipe) *string { return &a.name })},
	{Key{Path: "to_cake", Words: "of it for the cake, by loose volume, or twelve: of the month in which a load is begun", Dimension: units.Ratio, Low: 0, High: mostAmendment,
		Example: "0.3", When: "unless the recipe is designed", Usual: &Usual{0, 1.5, "more than the cake is unusual, common practice, no source"}},
		monthly(func(a *inRecipe) *[12]float64 { return &a.PerCake })},
	{Key{Path: "when_short", Words: "mixing waits for it, or loads are made without what is not there; product is always done without", Choices: []string{waits, without},
		Default: elseAs(waits+"; product: "+without, assumption)},
		chosen(func(a *inRecipe, word string) { a.Without = word == without })},
	{Key{Path: "kept", Words: "product that demand leaves in the store for mixing; for product alone", Dimension: units.Volume, Low: 0, High: mostVolume, Default: orElse(0, "none"), Example: "20 yd3"},
		number(func(a *inRecipe) *float64 { return &a.Kept })},
	{Key{Path: "store", Words: "room for it", Dimension: units.Volume, Low: 0.1, High: mostVolume, When: "unless it is product", Example: "60 yd3"},
		number(func(a *inRecipe) *float64 { return &a.Store })},
	{Key{Path: "own_per_day", Words: "what comes from own sources, mean of the days of each month, such as ground yard waste; what finds no room is turned away",
		Dimension: units.VolumePerTime, Low: 0, High: mostVolume, Default: orElse(0, "none"), Example: "4 yd3/day"},
		monthly(func(a *inRecipe) *[12]float64 { return &a.Own })},
	{Key{Path: "own_price", Words: "of what comes from own sources: grinding, hauling; less than 0 if somebody pays", Dimension: units.MoneyPerVolume, Low: -10_000, High: 10_000,
		Default: orElse(0, "free"), Example: "3 USD/yd3", UsedBy: ForPlanning},
		number(func(a *inRecipe) *float64 { return &a.ownPrice })},
}

// The words of when_short.
const waits, without = "wait", "do without"

// buyingRows are how an amendment is bought, as chips are.
var buyingRows = []row[plant.Ordering]{
	{Key{Path: "reorder_at", Words: "on hand and on order at which more is ordered", Dimension: units.Volume, Low: 0, High: mostVolume, Example: "20 yd3"},
		number(func(o *plant.Ordering) *float64 { return &o.Reorder })},
	{Key{Path: "order_up_to", Words: "on hand and on order after an order", Dimension: units.Volume, Low: 0.1, High: mostVolume, Example: "60 yd3"},
		number(func(o *plant.Ordering) *float64 { return &o.OrderUpTo })},
	{Key{Path: "truckload", Words: "that one delivery brings", Dimension: units.Volume, Low: 0.1, High: 10_000, Example: "30 yd3"},
		number(func(o *plant.Ordering) *float64 { return &o.Truckload })},
	{Key{Path: "lead_time", Words: "from order to delivery, in the mean", Dimension: units.Duration, Low: 0, High: calendar.SecondsPerYear},
		span(func(o *plant.Ordering) *sim.Duration { return &o.LeadTime })},
	{Key{Path: "lead_time_variation", Words: "spread of the lead time, of itself", Dimension: units.Fraction, Low: 0, High: 2, Default: orElse(0, assumption), Example: "35 %"},
		number(func(o *plant.Ordering) *float64 { return &o.LeadCV })},
}

// designedRows say where the ratios of the recipe are from.
var designedRows = []row[MixDesign]{
	{Key{Path: "recipe", Words: "as written: by chips_to_cake and to_cake; designed: each month's cake by mix.targets, as loamcast mix does, of chips and the amendments below",
		Choices: []string{"as written", "designed"}, Default: elseAs("as written", "")},
		chosen(func(d *MixDesign, word string) { d.Designed = word == "designed" })},
}

// recipeKeys are the amendments of the recipe.
func recipeKeys() []Key {
	const at = "mix.amendments[]"
	keys := under("mix", designedRows, nil)
	keys = append(keys, Key{Path: "mix.amendments", Kind: List, Words: "materials that every load holds beside cake and chips", Default: none})
	keys = append(keys, under(at, recipeAmendmentRows, nil)...)
	keys = append(keys, optional(at+".bought", "how it is bought, at the cost of the material", "it is not"))
	return append(keys, under(at+".bought", buyingRows, nil)...)
}
