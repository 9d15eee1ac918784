// Package stats measures what a simulation does: levels over time, tallies of
// observations, and intervals that say how well a number is known.
//
// It knows nothing of events; instants are int64 seconds since the start of the
// run and areas are level times seconds. Everything else has the unit of its
// observations; confidence levels and quantiles are fractions.
package stats
