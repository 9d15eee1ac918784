// Package money turns what a plant uses and buys over the years into present
// worth, equivalent annual cost and cost per dry mass.
//
// It is engineering economy and nothing else: no simulation, no taxes, loans or
// depreciation for tax, one currency. It does not know where quantities come
// from and draws no random numbers; a caller with uncertain prices makes a
// [Plan] per replication.
//
// Prices are stated in the money of one year and rise from there at their own
// nominal rate. Results are in constant money of that same year, discounted to
// the start of the plan. Two layers, each usable alone: [Flow]s under [Rates]
// (stated prices with escalation), and a [Plan] (assets, prices and yearly use).
//
// Units: USD, or whatever one currency prices are in; time in years, where year 0 of a plan is its first and instants
// count from its start; rates and shares per year as fractions (0.03 is 3 %).
// Quantities: h, kWh, m3, kg. Received money is positive and paid money
// negative, except in [Cost], where a cost is positive.
package money
