// Package inputs tells what an answer was given: the values of a facility file, those it
// leaves out with what holds instead, and who says so.
package inputs
