// Package dryness puts into words what it would take to dry lots that are too wet for
// the screen. It computes nothing.
package dryness
