// Package digesttest walks through values: it changes them, one thing at a time, for tests
// of what is found again by a digest, and counts what they keep in memory.
package digesttest
