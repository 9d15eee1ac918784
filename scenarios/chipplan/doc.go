// Package chipplan answers how many wood chips to buy: by month and fiscal year
// what is bought, comes back from the screen and is lost, in how many
// truckloads, for how much money; what to put in the budget; and when to order
// how many, so that mixing seldom waits for chips.
//
// The purchase plan is read off replications of the plant. The ordering rule is
// searched for in an inventory model that takes from the plant the daily use of
// fresh chips in runs that are never short, and is then tried in the plant
// itself; both chances are in the answer. The package renders nothing.
//
// Units: m3 loose, days, hours, USD of the day that they are paid, fractions 0…1.
package chipplan
