package yamlfile

import (
	"math"

	"loamcast/scenarios/units"
)

// Check is a condition on a number, in the base unit of its dimension. Make
// one with Positive, AtMost, Between, Usually or Like.
type Check struct {
	low, high float64
	above     bool   // low itself is not allowed
	source    string // of a usual range; a value outside it is a warning
	example   string // of what to write; with it there is no condition
}

// Like is no condition but an example of the number, with its unit, whose units are
// proposed where something is wrong with a unit: "0.051 kg/day or 0.11 lb/day".
func Like(example string) Check {
	return Check{low: math.Inf(-1), high: math.Inf(1), example: example}
}

// exampleOf returns the example among checks, empty if there is none.
func exampleOf(checks []Check) string {
	for _, c := range checks {
		if c.example != "" {
			return c.example
		}
	}
	return ""
}

// exampleFor is exampleOf, or that of a dimension.
func exampleFor(dim units.Dimension, checks []Check) string {
	if example := exampleOf(checks); example != "" {
		return example
	}
	return dim.Example()
}

// Positive asks for more than zero.
func Positive() Check { return Check{low: 0, high: math.Inf(1), above: true} }

// AtMost asks for high or less.
func AtMost(high float64) Check { return Check{low: math.Inf(-1), high: high} }

// Between asks for a number from low to high, both included.
func Between(low, high float64) Check { return Check{low: low, high: high} }

// Usually warns of a number outside the range from low to high; source says
// who gives that range.
func Usually(low, high float64, source string) Check {
	return Check{low: low, high: high, source: source}
}

func (c Check) holds(x float64) bool {
	return x <= c.high && (x > c.low || x == c.low && !c.above)
}

// complaint says what is wrong with a number written as text that does not
// hold, in the units of that text.
func (c Check) complaint(text string, dim units.Dimension) (message, hint string) {
	system := units.SystemOf(text)
	text = quote(text)
	if c.source != "" {
		low, high := units.Format(c.low, dim, system), units.Format(c.high, dim, system)
		return text + " is outside the usual range", "usual are " + low + " to " + high + " (" + c.source + ")"
	}
	// A limit is shown with more digits, so that it does not round to the
	// number it refuses.
	low, high := units.FormatDigits(c.low, dim, system, 6), units.FormatDigits(c.high, dim, system, 6)
	switch {
	case c.above:
		return text + " is out of range", "it must be more than " + low
	case math.IsInf(c.low, -1):
		return text + " is out of range", "it must be at most " + high
	}
	return text + " is out of range", "it must be from " + low + " to " + high
}
