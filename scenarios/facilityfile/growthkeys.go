package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
)

// The most that production may grow or shrink in a year, and what it may become
// of itself.
const (
	steepestFall, steepestRise = -0.2, 0.3
	leastFactor, mostFactor    = 0.01, 100
)

// mostPeople is more than any town has.
const mostPeople = 1e9

var compoundRows = []row[plant.Compound]{
	{Key{Path: "compound", Words: "growth by so much a year, compounded", Dimension: units.AnnualRate, Low: steepestFall, High: steepestRise,
		Usual: &Usual{-0.03, 0.06, "long-term growth of a town, common practice, no source"}, When: "without another form of growth", Example: "2 %/year"},
		number(func(g *plant.Compound) *float64 { return &g.Rate })},
}

var linearRows = []row[plant.Linear]{
	{Key{Path: "linear", Words: "growth by so much of the first year's production each year", Dimension: units.AnnualRate,
		Low: steepestFall, High: steepestRise, When: "without another form of growth", Example: "2 %/year"},
		number(func(g *plant.Linear) *float64 { return &g.Rate })},
}

var logisticRows = []row[plant.Logistic]{
	{Key{Path: "ceiling", Words: "factor on the first year's production that is approached", Dimension: units.Ratio, Low: leastFactor, High: mostFactor, Example: "1.8"},
		number(func(g *plant.Logistic) *float64 { return &g.Ceiling })},
	{Key{Path: "rate", Words: "growth far below the ceiling", Dimension: units.AnnualRate, Low: 1e-4, High: 1, Example: "6 %/year"},
		number(func(g *plant.Logistic) *float64 { return &g.Rate })},
}

var stepOfGrowthRows = []row[plant.Point]{
	{Key{Path: "factor", Words: "factor on production at the start, from that day on", Dimension: units.Ratio, Low: leastFactor, High: mostFactor, Example: "1.15"},
		number(func(p *plant.Point) *float64 { return &p.Value })},
}

var (
	byYear = Key{Path: "by_year", Kind: Quantities, Words: "factor at the start of each year, the first of them 1", Dimension: units.Ratio,
		Low: leastFactor, High: mostFactor, When: "without another form of growth", Example: "[1, 1.02, 1.05]"}
	byCalendarYear = Key{Path: "by_calendar_year", Kind: Years, Words: "amounts on the first of January of some years; only ratios count", Dimension: units.Dimensionless,
		Low: 1e-3, High: 1e12, When: "without another form of growth", Example: "{2025: 9600, 2035: 11800}"}
	growthStepDate = Key{Path: "date", Kind: Date, Words: "day on which production jumps", Example: "2031-07-01"}
)

// populationRows belong to a population whose growth stands beside them.
var populationRows = []row[grown]{
	{Key{Path: "per_person", Words: "dry solids of each person", Dimension: units.MassPerTime, Low: 0.001, High: 1,
		Usual: &Usual{0.02, 0.12, "about 0.042 kg of primary solids a day, course solution, read; with secondary solids twice that, from memory"}, Example: "0.051 kg/day"},
		number(func(g *grown) *float64 { return &g.perDay })},
	{Key{Path: "source", Words: "what the population rests on", UsedBy: ForShowing, Example: "county forecast"},
		text(func(g *grown) *string { return &g.source })},
}

var peopleRows = []row[grown]{
	{Key{Path: "people", Words: "how many there are at the start", Dimension: units.Dimensionless, Low: 1, High: mostPeople, When: "without by_calendar_year", Example: "9,800"},
		number(func(g *grown) *float64 { return &g.people })},
}

// formKeys are the forms of growth under a path.
func formKeys(path string) []Key {
	keys := under(path, compoundRows, nil)
	keys = append(keys, under(path, linearRows, nil)...)
	keys = append(keys, Key{Path: join(path, "logistic"), Kind: Group, Words: "growth ever more slowly towards a ceiling", When: "without another form of growth"})
	keys = append(keys, under(join(path, "logistic"), logisticRows, nil)...)
	keys = append(keys, placed(path, byYear, byCalendarYear)...)
	keys = append(keys, Key{Path: join(path, "steps"), Kind: List, Words: "dates on which production jumps", When: "without another form of growth"})
	keys = append(keys, placed(join(path, "steps[]"), growthStepDate)...)
	return append(keys, under(join(path, "steps[]"), stepOfGrowthRows, nil)...)
}

// placed returns keys at a path.
func placed(path string, keys ...Key) []Key {
	out := make([]Key, len(keys))
	for i, k := range keys {
		k.Path = join(path, k.Path)
		out[i] = k
	}
	return out
}

// growthKeys are those of solids.growth.
func growthKeys(path string) []Key {
	population := join(path, "population")
	keys := []Key{{Path: path, Kind: Group, Words: "how production grows, in one of several forms", OneOf: true, Default: elseAs("no growth", assumption),
		Uncertain: added("growth of solids", units.AnnualRate, -0.1, 0.1, // to the yearly rate, whatever the form
			func(p Parts, v float64) { p.Model.Feed.Growth = plant.NewFaster(p.Model.Feed.Growth, v) })}}
	keys = append(keys, formKeys(path)...)
	keys = append(keys, Key{Path: population, Kind: Group, Words: "production as people times what each gives; then leave dry_per_day out", When: "without another form of growth"})
	keys = append(keys, under(population, peopleRows, nil)...)
	keys = append(keys, under(population, populationRows, nil)...)
	return append(keys, formKeys(population)...)
}
