// Package warmup finds how long a plant must run before its start, so that what
// it does in a year no longer depends on having begun empty: with full chip stores
// of fresh chips, nothing in vessels and nothing curing.
//
// It follows a pilot of the plant at the loads of its first year, year after year,
// without noise, breakdowns, growth and changes, so that the years differ by the
// beginning alone, and reads off each yearly figure from when on it keeps its
// level (stats.SettledFrom on years).
//
// Units: years; figures are compared in units of their own.
package warmup
