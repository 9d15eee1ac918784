// Package answer holds what all answers share: the head that says what they
// rest on, quantities over the replications, names of years, and the cautions
// that go with every number.
//
// It asks nothing and computes no answer: each question has a package of its
// own. Units are those of the quantities given to it.
package answer
