package report

import (
	"strings"

	"loamcast/scenarios/drivers"
)

// driverNames are the inputs in words, after "the". What is added to the values of
// the file, or a factor on them, says so.
var driverNames = map[string]string{
	drivers.GrowthKey:         "growth scenario",
	"solids.dry_per_day":      "dry solids per day",
	"solids.growth":           "growth of solids (added)",
	"solids.cake_solids":      "solids content of cake (added)",
	"cake.volatile_solids":    "volatile solids of the cake",
	"cake.readily_degradable": "readily degradable part of cake",
	"cake.nitrogen":           "nitrogen of the cake",
	"mix.chips_to_cake":       "ratio of chips to cake",
	"chips.moisture":          "moisture of chips (added)",
	"chips.lead_time":         "lead time of chips",
	"screen.recovery":         "recovery of chips by the screen",
	"screen.carry_over":       "fines carried over with chips",
	"screen.attrition":        "breaking of chips into fines",
	"vessels.residence":       "residence in a vessel",
	"vessels.turnaround":      "turnaround of a vessel",
	"product.demand_per_day":  "demand for product (factor)",
	"chips.price":             "price of chips",
	"money.discount":          "discount rate",
	"money.labour":            "price of labour",
	"money.power":             "price of power",
	"money.fuel":              "price of fuel",
	"money.tipping":           "tipping fee",
	"money.product":           "price of product (added)",
	"money.capital":           "cost of what is built (added)",
	drivers.LuckKey:           "luck alone",
}

// driverTitle names an input in a table; one that has no words by its key.
func driverTitle(key string) string {
	if name, ok := driverNames[key]; ok {
		return name
	}
	return key
}

// driverName names an input in a sentence.
func driverName(key string) string {
	name, known := driverNames[key]
	if !known {
		return key
	}
	name, _, _ = strings.Cut(name, " (")
	return "the " + name
}
