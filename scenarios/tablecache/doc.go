// Package tablecache keeps tables of courses from one run of the program to the next, in
// a folder of the user's.
//
// No answer depends on it: what is read is, to the last bit, what would be integrated.
// A table is found by its physics ([process.Physics]), the program that integrated it and
// how the machine rounds, so that another model, another build or another processor never
// reads it. What is damaged is taken for nothing and replaced; where there is no folder,
// or none that can be written, everything goes on without.
//
// A table lies in files of parts, each written whole under a temporary name and renamed,
// and never changed afterwards: processes that run side by side each add a part of their
// own, and none waits for another. Many parts are put together into one. Each course has
// a checksum of its own and is read when it is first asked for, so that opening a table
// costs next to nothing. The files that have not been used for the longest time are
// removed when all together grow too large.
package tablecache
