// Package vesselplan answers when the next vessels must be there, and how many:
// for each number of vessels and each growth scenario the last year that keeps
// the service target, the quarter by which more vessels are needed, and the
// quarter in which to order them.
//
// It does not simulate every year of every number of vessels. A year that is kept
// with some vessels is kept with more, and a year before one that is kept is kept
// too, while production grows and the file changes nothing; where it does, a new
// stretch of years begins, which is searched by itself. So each search begins at a
// guess from what is known already, simulates one year at a time, and replicates
// it until a sequential test says on which side of the target the year lies.
//
// Years are counted from the start of the horizon, from 0; shares are fractions.
package vesselplan
