// Package cache keeps tables of courses, what runs have left, and designed recipes, from one
// run of the program to the next, in a folder of the user's.
//
// No answer depends on it: what is read is, to the last bit, what would be integrated or
// simulated. A table is found by its physics ([process.Physics]), a run by all that its
// record follows from (the plant as it was simulated, seed and replication; prices are no
// part of that), a recipe by what its designs follow from, and all by the program and how
// the machine rounds, so that another model, another build or another processor never reads
// them. What is damaged is taken for nothing and replaced; where there is no folder, or none
// that can be written, everything goes on without.
//
// All lies in files of parts, each written whole under a temporary name and renamed, and
// never changed afterwards: processes that run side by side each add a part of their own,
// and none waits for another. Each entry of a part has a checksum of its own and is read
// when it is first asked for, so that opening one costs next to nothing. The files that
// have not been used for the longest time are removed when all together grow too large.
//
// Many parts of one table are put together into one. The runs of a command stay in its part:
// whole records, of which any question takes what it asks for, written while the command
// goes on, so that they take no memory, and read again by another part of it.
package cache
