// Package digesttest changes values, one thing at a time, for tests of what is found again by
// a digest.
package digesttest
