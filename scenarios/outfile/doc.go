// Package outfile writes results so that a reader never meets half a file: each
// is written under a temporary name beside its place, synced, and renamed.
// Folders are made only when there is something to put in them.
package outfile
