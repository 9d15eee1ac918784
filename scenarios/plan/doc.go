// Package plan gives the planning answers together, each with how sure it is: when
// to order vessels, how many chips to buy, how much compost to expect, and which
// option to choose. It asks the packages that answer each of them, with less
// effort than they spend alone, and computes nothing itself.
package plan
