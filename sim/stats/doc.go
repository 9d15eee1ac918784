// Package stats measures what a simulation does: levels over time, intervals that
// say how well a number is known, and rules for when to begin measuring (warm-up)
// and when to stop replicating (a sure enough answer).
//
// It knows nothing of events; instants are int64 seconds since the start of the
// run and areas are level times seconds. Everything else has the unit of its
// observations; confidence levels, quantiles and shares are fractions.
package stats
