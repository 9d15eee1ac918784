// Package simulate runs a facility file: all replications of the plant as it
// is, and of the same plant with a vessel for every load, on all cores, and
// reduces them to the answer.
//
// Results depend on the file, the seed and the version, not on the number of
// workers.
package simulate
