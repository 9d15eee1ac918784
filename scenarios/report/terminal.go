package report

import (
	"fmt"
	"strconv"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
)

// The screen: a terminal of usual size, without its last two columns.
const (
	screenLines   = 40
	screenColumns = 98
)

// summary has a system of units.
type summary struct{ sys units.System }

// label is the heading of a line, padded so that the texts line up.
func label(s string) string { return fmt.Sprintf("%-13s", s) }

// number writes a value in the shown unit, without its name.
func (s summary) number(v float64, q quantity) string { return units.FormatNumber(q.in(v, s.sys)) }

// show writes a value with its unit, held together.
func (s summary) show(v float64, q quantity) string {
	text := s.number(v, q) + " " + plural(q.label(s.sys))
	return strings.ReplaceAll(text, " ", noBreak)
}

// bracketed writes the median with the unit, and the interval in brackets
// where its ends differ in the digits shown.
func (s summary) bracketed(x answer.Spread, q quantity) string {
	low, high := s.number(x.P10, q), s.number(x.P90, q)
	if low == high {
		return s.show(x.P50, q)
	}
	return fmt.Sprintf("%s"+noBreak+"(%s–%s)", s.show(x.P50, q), low, high)
}

// plural makes the units that are words plural, as running text wants them.
func plural(unit string) string {
	switch unit {
	case "short ton", "day":
		return unit + "s"
	}
	return unit
}

func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

// tiny writes a very small number to one digit: "3e-14".
func tiny(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'e', 0, 64), "e-0", "e-", 1)
}
