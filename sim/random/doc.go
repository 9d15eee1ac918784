// Package random gives keyed streams of random numbers and the distributions
// drawn from them.
//
// A stream is named by what it is for: (seed, replication, name, entity). Two
// plans that ask for the same stream see the same numbers, whatever else each of
// them draws, and a new stream shifts no other. Every distribution takes exactly
// one number from its stream for each draw and grows with it, so that plans
// which differ in a parameter still meet the same good and bad luck (common
// random numbers with inversion; Law, Simulation Modeling and Analysis, ch. 11,
// from memory).
//
// It keeps no time and no state but that of a stream. A stream belongs to one
// goroutine. Values have the unit of the parameters.
package random
