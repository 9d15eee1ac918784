// Package examples holds the built-in facilities. All of them are invented:
// no real utility, town or person stands behind a number in them. The first is
// also what `loamcast new` writes, so its comments teach the file.
package examples
