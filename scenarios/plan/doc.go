// Package plan gives the planning answers together, each with how sure it is: when
// to order vessels, how many chips to buy, how much compost to expect, and which
// option to choose. It asks the questions of the packages that answer each of them,
// with their own defaults, so that every part says what its own command says, and
// computes nothing itself.
package plan
