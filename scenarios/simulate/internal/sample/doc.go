// Package sample builds an invented answer for the tests of the renderings:
// plausible numbers for a plant that grows out of its vessels. It is not the
// result of a run, and only tests use it. Values are in the answer's units.
package sample
