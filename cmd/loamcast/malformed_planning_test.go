package main

import "testing"

// planningFile is a sound facility file that holds what the planning answers
// need.
const planningFile = "../../scenarios/facilityfile/testdata/planning.yaml"

const (
	growthLow   = "growth: {linear: 0.5 %/year}"
	ofRecovery  = "{input: screen.recovery, pert: [70 %, 78 %, 84 %]}"
	ofVolatiles = "{input: cake.volatile_solids, triangular: [77 %, 79 %, 80 %]}"
	rankOfFirst = "{between: [solids.growth, solids.cake_solids], rank: -0.4}"
	optionSteps = `    steps:
      - {date: 2029-01-01, cake_solids: 2 %, cost: "90,000 USD", life: 15 year, salvage: 10 %, upkeep: 3 %/year, running: "-2,000 USD/year"}
`
	onePad = `  - {name: more pad, pad: 40 yd3, lead_time: 6 month, cost: "25,000 USD"}`
)

// malformedPlanning are spoilt planning files.
var malformedPlanning = []spoilt{
	// Growth.
	{"logistic without a ceiling", []string{growthLow, "growth: {logistic: {rate: 6 %/year}}"}},
	{"logistic that stands still", []string{"rate: 6 %/year", "rate: 0 %/year"}},
	{"step before the start", []string{"date: 2028-07-01, factor", "date: 2027-07-01, factor"}},
	{"steps out of order", []string{"date: 2028-07-01, factor", "date: 2033-07-01, factor"}},
	{"step without a factor", []string{"{date: 2028-07-01, factor: 1.05}", "{date: 2028-07-01}"}},
	{"table of years begins late", []string{"{2025: 1900, 2030", "{2028: 1900, 2030"}},
	{"table of years out of order", []string{"2030: 2150, 2040: 2600", "2040: 2600, 2030: 2150"}},
	{"table of years with a comma", []string{"2025: 1900", "2025: 1,900"}},
	{"table of years for a list", []string{"{2025: 1900, 2030: 2150, 2040: 2600}", "[1900, 2150, 2600]"}},
	{"table of years that explodes", []string{"2040: 2600}", "2040: 2600000}"}},
	{"population without a source", []string{"      source: invented forecast of the county\n", ""}},
	{"population against the production", []string{"solids:\n", "solids:\n  dry_per_day: 150 kg/day\n"}},
	{"population and a rate", []string{"  growth:\n    population:", "  growth:\n    compound: 2 %/year\n    population:"}},
	{"people counted twice", []string{"      per_person", "      people: 2000\n      per_person"}},
	{"person of many", []string{"per_person: 0.05 kg/day", "per_person: 50 kg/day"}},
	{"growth scenarios above 100 %", []string{"weight: 50 %", "weight: 60 %"}},
	{"growth scenario without growth", []string{", " + growthLow, ""}},
	{"growth scenarios named alike", []string{"name: middle", "name: low"}},
	{"no growth scenario", []string{`  - {name: low, weight: 30 %, growth: {linear: 0.5 %/year}}
  - name: middle
    weight: 50 %
    growth:
      steps:
        - {date: 2028-07-01, factor: 1.05}
        - {date: 2031-07-01, factor: 1.2}
    source: invented list of subdivisions
  - {name: high, weight: 20 %, growth: {logistic: {ceiling: 1.8, rate: 6 %/year}}}
`, "  []\n"}},

	// The target.
	{"scenario of no form", []string{growthLow, "growth: {}"}},
	{"option of the past", []string{"date: 2028-01-01\n        lead_time: 12 month", "date: 2027-06-30\n        lead_time: 12 month"}},
	{"target of all runs", []string{"runs: 90 %", "runs: 100 %"}},
	{"target without waiting", []string{"cake_waits_at_most: 4 day", "cake_waits_at_most: 0 day"}},
	{"target of waiting without a unit", []string{"cake_waits_at_most: 4 day", "cake_waits_at_most: 4"}},
	{"target as a mass", []string{"diverted_at_most: 2 %", "diverted_at_most: 2 t"}},

	// What is uncertain.
	{"uncertain input unknown", []string{"input: screen.recovery", "input: screen.recover"}},
	{"uncertain input twice", []string{ofRecovery, ofRecovery + "\n  - {input: screen.recovery, uniform: [70 %, 80 %]}"}},
	{"uncertain without a distribution", []string{", pert: [70 %, 78 %, 84 %]", ""}},
	{"uncertain by two distributions", []string{"pert: [70 %, 78 %, 84 %]", "pert: [70 %, 78 %, 84 %], uniform: [70 %, 84 %]"}},
	{"uncertain without its mode", []string{"[70 %, 78 %, 84 %]", "[70 %, 84 %]"}},
	{"uncertain upside down", []string{"[70 %, 78 %, 84 %]", "[84 %, 78 %, 70 %]"}},
	{"uncertain by nothing", []string{"[70 %, 78 %, 84 %]", "[78 %, 78 %, 78 %]"}},
	{"uncertain beyond 100 %", []string{"[70 %, 78 %, 84 %]", "[70 %, 78 %, 104 %]"}},
	{"uncertain as a bare number", []string{"[70 %, 78 %, 84 %]", "[0.70, 78 %, 84 %]"}},
	{"uncertain without a spread", []string{"{mean: 0 %/year, sd: 0.4 %/year}", "{mean: 0 %/year}"}},
	{"uncertain lognormal below zero", []string{"{mean: 8 day, variation: 40 %}", "{mean: -8 day, variation: 40 %}"}},
	{"uncertain by one value", []string{"[95 USD/short ton, 68 USD/short ton, 75 USD/short ton]", "[75 USD/short ton]"}},
	{"uncertain to no plant", []string{ofVolatiles, "{input: cake.nitrogen, triangular: [2 %, 5 %, 6 %]}"}},
	{"uncertain together to no plant", []string{ofVolatiles, `{input: cake.volatile_solids, uniform: [70 %, 92 %]}
  - {input: cake.nitrogen, uniform: [3.2 %, 5.5 %]}`}},
	{"uncertain residence beyond the longest", []string{ofRecovery, "{input: vessels.residence, uniform: [12 day, 21 day]}"}},
	{"uncertain cake like earth", []string{"uniform: [-1 %, 1.5 %]", "uniform: [-1 %, 29 %]"}},

	// Correlations.
	{"correlation above 1", []string{"rank: -0.4", "rank: -1.4"}},
	{"correlation of what is certain", []string{"[solids.growth, solids.cake_solids]", "[solids.growth, screen.attrition]"}},
	{"correlation with itself", []string{"[solids.growth, solids.cake_solids]", "[solids.growth, solids.growth]"}},
	{"correlation there twice", []string{rankOfFirst, rankOfFirst + "\n  - {between: [solids.cake_solids, solids.growth], rank: 0.1}"}},
	{"correlation without a partner", []string{"{between: [solids.growth, solids.cake_solids], rank: -0.4}", "{rank: -0.4}"}},
	{"correlations that contradict", []string{rankOfFirst, "{between: [solids.growth, solids.cake_solids], rank: -0.9}\n  - {between: [solids.cake_solids, money.tipping], rank: 0.9}"}},

	// Money.
	{"discount as a fraction", []string{"discount: 5 %/year", "discount: 5 %"}},
	{"discount of no kind", []string{"  discount_kind: nominal\n", ""}},
	{"money without tipping", []string{"  tipping: 75 USD/short ton\n", ""}},
	{"money in another currency", []string{"labour: 38 USD/h", "labour: 38 EUR/h"}},
	{"misspelt currency", []string{"price: 11 USD/yd3", "price: 11 UDS/yd3"}},
	{"price by the sign of another currency", []string{"power: 0.12 USD/kWh", "power: £0.12/kWh"}},
	{"money without the price of chips", []string{"  price: 11 USD/yd3\n", ""}},
	{"fuel that nothing burns", []string{"  loader_fuel: 4 gal/h\n  truck_fuel: 3 gal/h\n", ""}},
	{"carbon without a price", []string{"  tipping: 75", "  carbon: {power: 0.3 kg/kWh}\n  tipping: 75"}},
	{"carbon of power by the tonne", []string{"  tipping: 75", "  carbon: {price: 50 USD/t, power: 0.3 t}\n  tipping: 75"}},
	{"carbon of fuel that nothing burns", []string{"  loader_fuel: 4 gal/h\n  truck_fuel: 3 gal/h\n", "", "  fuel: 4 USD/gal\n", "  carbon: {price: 50 USD/t, fuel: 2.7 kg/L}\n"}},
	{"carbon that rises without a price", []string{"escalation:\n", "escalation:\n    carbon: 4 %/year\n"}},
	{"uncertain price of carbon without one", []string{"  - {input: money.tipping,", "  - {input: money.carbon.price, uniform: [40 USD/t, 90 USD/t]}\n  - {input: money.tipping,"}},
	{"fuel without a price", []string{"  fuel: 4 USD/gal\n", ""}},
	{"fuel of trucks without trucks", []string{"yard:\n  trucks: 1\n  move: 25 min\n\n", ""}},
	{"fiscal year of mid-month", []string{"money:\n", "fiscal_year: {begins: 07-15}\n\nmoney:\n"}},
	{"fiscal year of no day", []string{"money:\n", "fiscal_year: {begins: 13-01}\n\nmoney:\n"}},
	{"fiscal year by the name of a month", []string{"money:\n", "fiscal_year: {begins: july}\n\nmoney:\n"}},
	{"fiscal year without its beginning", []string{"money:\n", "fiscal_year: {named: by its end}\n\nmoney:\n"}},
	{"fiscal year named by its middle", []string{"money:\n", "fiscal_year: {begins: 07-01, named: by its middle}\n\nmoney:\n"}},
	{"calendar year with a name", []string{"money:\n", "fiscal_year: {begins: 01-01, named: by its end}\n\nmoney:\n"}},
	{"paid at another time", []string{"paid: end of year", "paid: end of month"}},

	// Steps and their cost.
	{"option without steps", []string{optionSteps, ""}},
	{"option with an empty list", []string{optionSteps, "    steps: []\n"}},
	{"options named alike", []string{"name: thicker cake", "name: one vessel, then another"}},
	{"option beyond room", []string{"        vessels: 1\n        cost: 190,000 USD", "        vessels: 5\n        cost: 190,000 USD"}},
	{"option to cake like earth", []string{"cake_solids: 2 %", "cake_solids: 30 %", "uniform: [-1 %, 1.5 %]", "uniform: [-1 %, 0 %]", "cake_solids: 20 %", "cake_solids: 21 %"}},
	{"option of nothing", []string{"cake_solids: 2 %, ", ""}},
	{"catalogue with a date", []string{onePad, onePad[:len(onePad)-1] + ", date: 2029-01-01}"}},
	{"catalogue beyond room", []string{"{name: one vessel, vessels: 1", "{name: one vessel, vessels: 5"}},
	{"catalogue of none", []string{"most: 3", "most: 0"}},
	{"life without a cost", []string{"    cost: 30,000 USD\n", ""}},
	{"salvage above the cost", []string{"    salvage: 5 %\n", "    salvage: 105 %\n"}},
	{"upkeep as an amount", []string{"    upkeep: 1 %/year\n", "    upkeep: 300 USD/year\n"}},
	{"cost as a rate", []string{"    cost: 30,000 USD\n", "    cost: 30,000 USD/year\n"}},
}

// Mistakes in what planning needs are refused as all others are.
func TestMalformedPlanning(t *testing.T) { refuseAll(t, planningFile, malformedPlanning) }

// Costs without a section on money would count for nothing, and are refused.
func TestCostsWithoutMoney(t *testing.T) {
	refuseAll(t, yardFile, []spoilt{
		{"cost without money", []string{"    vessels: 1\n", "    vessels: 1\n    cost: 180,000 USD\n"}},
		{"uncertain price without money", []string{"biofilter:\n", "uncertain:\n  - {input: money.tipping, uniform: [60 USD/short ton, 90 USD/short ton]}\n\nbiofilter:\n"}},
	})
}
