package facilityfile

import (
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
)

// Wet cake is written within what is dry production within its bounds, whatever its
// solids content.
const (
	leastWetPerDay, mostWetPerDay = leastDryPerDay / leastCakeSolids, mostDryPerDay / mostCakeSolids
	leastYear, mostYear           = 365, 366 // days
	shortestMonth                 = 28
	otherAmount                   = "without another amount"
	withoutSources                = "without sources"
)

var (
	wetPerDay = Key{Path: "wet_per_day", Words: "wet cake that comes, mean of the first year; the dry solids follow from cake_solids, by the months with what they send", Dimension: units.MassPerTime,
		Low: leastWetPerDay, High: mostWetPerDay, When: otherAmount, Example: "2.2 short ton/day"}
	dryPerYear = Key{Path: "dry_per_year", Words: "dry solids that come in the first year", Dimension: units.MassPerTime,
		Low: leastDryPerDay, High: mostDryPerDay, When: otherAmount, Example: "200 short ton/year"}
	wetPerYear = Key{Path: "wet_per_year", Words: "wet cake that comes in the first year", Dimension: units.MassPerTime,
		Low: leastWetPerDay, High: mostWetPerDay, When: otherAmount, Example: "880 short ton/year"}
	dryByYear = Key{Path: "dry_by_year", Kind: Years, Words: "dry solids of calendar years, as measured or expected; growth too, where growth is left out", Dimension: units.Mass,
		Low: leastDryPerDay * mostYear, High: mostDryPerDay * leastYear, When: otherAmount, Example: "{2025: 196 short ton, 2027: 200 short ton}"}
	wetByYear = Key{Path: "wet_by_year", Kind: Years, Words: "wet cake of calendar years; growth too, where growth is left out", Dimension: units.Mass,
		Low: leastWetPerDay * mostYear, High: mostWetPerDay * leastYear, When: otherAmount, Example: "{2025: 860 short ton, 2027: 880 short ton}"}
	dryByMonth = Key{Path: "dry_by_month", Kind: Months, Words: "dry solids of each month of the first year; takes the place of by_month", Dimension: units.Mass,
		Low: 0, High: mostDryPerDay * shortestMonth, When: otherAmount, Example: "[15 t, 14 t, 15 t, 15 t, 16 t, 16 t, 18 t, 20 t, 19 t, 17 t, 14 t, 14 t]"}
	wetByMonth = Key{Path: "wet_by_month", Kind: Months, Words: "wet cake of each month of the first year; takes the place of by_month", Dimension: units.Mass,
		Low: 0, High: mostWetPerDay * shortestMonth, When: otherAmount, Example: "[66 t, 62 t, 66 t, 66 t, 70 t, 70 t, 80 t, 88 t, 84 t, 74 t, 62 t, 62 t]"}
)

// amountKeys are the ways to say how much comes, beside that of baseRows.
func amountKeys(path string) []Key {
	return placed(path, wetPerDay, dryPerYear, wetPerYear, dryByYear, wetByYear, dryByMonth, wetByMonth)
}

var sourceRows = []row[plant.Source]{
	{Key{Path: "name", Words: "name of the plant that sends cake", Example: "north plant", UsedBy: ForShowing},
		text(func(s *plant.Source) *string { return &s.Name })},
}

// sourceKeys are those of plants that send cake. What is not known for sure is told of
// all of them together.
func sourceKeys() []Key {
	const list = "solids.sources"
	const entry = list + "[]"
	keys := slices.Concat(
		[]Key{{Path: list, Kind: List, Words: "plants that send cake, where there are several; each has its amount, growth, season, week and cake_solids", Default: none}},
		under(entry, sourceRows, nil),
		under(entry, baseRows, nil),
		amountKeys(entry),
		growthKeys(join(entry, "growth")),
		under(entry, sentRows, nil),
	)
	for i := range keys {
		k := &keys[i]
		k.Uncertain = nil
		if k.When == withoutSources {
			k.When = ""
		}
	}
	return keys
}
