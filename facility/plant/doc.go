// Package plant runs a composting facility as discrete events: cake arrives
// and is held, is mixed with chips in weighed batches, fills vessels, composts,
// cures, is screened so that the chips come back, and leaves as product.
//
// The nouns:
//
//   - Model: everything that is fixed during a run, validated, in SI units.
//   - Plant: a Model made ready to run, with its tables of vessel and curing
//     courses. It is immutable and shared by all replications.
//   - Record: what one replication measured, month by month and year by year,
//     with a mass balance that closes.
//   - load: the content of one vessel, later one lot on the curing pad.
//   - station: a place where loads stay, metered so that Little's law can be
//     checked.
//
// Lots that are too wet for the screen are screened anyway, held or dried first
// (Drying); what they wait for is then a cause, TooWet, and a stage of capacity.
//
// Vessels may fail for a time (Outage), and a season may have weather, cake and chips of
// its own (Spell).
//
// A run is a pure function (Plant, seed, replication) → Record. After every
// event the plant settles: each stage, from the product store upstream to the
// mixer, starts what it can. A stage that finds no room downstream simply does
// not start, so blocking travels upstream by itself.
//
// Units: kg, m3, kg/day, m3/day, m3/h; durations are sim.Duration (whole
// seconds); solids are dry unless a name says wet. The package knows no files
// and no money.
package plant
