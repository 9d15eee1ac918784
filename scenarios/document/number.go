package document

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
	"loamcast/sim/stats"
)

// Number is a number of an answer in running text or in a cell.
type Number struct {
	Value    float64
	Quantity Quantity
	// Decimals is how many there are; [Significant] writes three or four
	// significant digits instead.
	Decimals int
	// Unit says whether the unit is written behind the number.
	Unit bool
}

// Significant is the Decimals of a number written to three significant digits,
// or four from 1,000 on.
const Significant = -1

// Show is a number with significant digits and its unit.
func Show(v float64, q Quantity) Number { return Number{v, q, Significant, true} }

// Bare is a number with significant digits, without its unit.
func Bare(v float64, q Quantity) Number { return Number{v, q, Significant, false} }

// With is a number with so many decimals and its unit.
func With(v float64, q Quantity, decimals int) Number { return Number{v, q, decimals, true} }

// Fixed is a number with so many decimals, without its unit.
func Fixed(v float64, q Quantity, decimals int) Number { return Number{v, q, decimals, false} }

// In implements [Part].
func (n Number) In(sys units.System) string {
	text := n.digits(sys)
	if n.Unit {
		text = strings.TrimSpace(text + " " + plural(n.Quantity.Label(sys)))
	}
	return strings.ReplaceAll(text, " ", NoBreak)
}

func (n Number) digits(sys units.System) string {
	shown := n.Quantity.In(n.Value, sys)
	if n.Decimals == Significant || n.Decimals == 0 && math.Abs(shown) >= 1000 {
		return units.FormatNumber(shown)
	}
	text := fmt.Sprintf("%.*f", n.Decimals, shown)
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// plural makes the units that are words plural, as running text wants them.
func plural(unit string) string {
	switch unit {
	case "short ton", "day", "year":
		return unit + "s"
	case "yd3/year", "m3/year":
		return strings.Replace(unit, "/", " a ", 1)
	}
	return unit
}

// Unit is the unit of a quantity by itself, in the singular.
type Unit struct{ Quantity }

// In implements [Part].
func (u Unit) In(sys units.System) string {
	return strings.ReplaceAll(u.Label(sys), " ", NoBreak)
}

// Units is the unit of a quantity by itself, in the plural.
type Units struct{ Quantity }

// In implements [Part].
func (u Units) In(sys units.System) string {
	return strings.ReplaceAll(plural(u.Label(sys)), " ", NoBreak)
}

// Bracketed is a median with its unit, and the interval in brackets where its
// ends differ in the digits shown.
type Bracketed struct {
	Spread   answer.Spread
	Quantity Quantity
}

// In implements [Part].
func (b Bracketed) In(sys units.System) string {
	low, high := Bare(b.Spread.P10, b.Quantity).In(sys), Bare(b.Spread.P90, b.Quantity).In(sys)
	median := Show(b.Spread.P50, b.Quantity).In(sys)
	if low == high {
		return median
	}
	return fmt.Sprintf("%s"+NoBreak+"(%s–%s)", median, low, high)
}

// RunsBetween is "eight runs in ten between 3,900 and 4,400".
type RunsBetween struct {
	Spread   answer.Spread
	Quantity Quantity
	Level    answer.Level
}

// In implements [Part].
func (r RunsBetween) In(sys units.System) string {
	names := [...]string{"none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"}
	runs := names[int(10*(r.Level.High-r.Level.Low)+0.5)]
	low, high := Bare(r.Spread.P10, r.Quantity).In(sys), Bare(r.Spread.P90, r.Quantity).In(sys)
	if low == high {
		return fmt.Sprintf("%s runs in ten at %s", runs, low)
	}
	return fmt.Sprintf("%s runs in ten between %s and %s", runs, low, high)
}

// Chance is an estimated chance in words. What was seen in no replication may
// yet happen: then it is below the end of its interval.
func Chance(c stats.Interval) string {
	if c.Estimate == 0 {
		return "less than " + ShareText(c.High)
	}
	return ShareText(c.Estimate)
}

// ChanceInterval is an estimated chance with its interval.
func ChanceInterval(c stats.Interval) string {
	return fmt.Sprintf("%s"+NoBreak+"(%s–%s)", ShareText(c.Estimate), BareShare(c.Low), ShareText(c.High))
}

// ShareText writes a share in percent with as many digits as replications can
// give: tenths near nothing and near everything.
func ShareText(share float64) string { return BareShare(share) + NoBreak + "%" }

// BareShare is ShareText without the sign.
func BareShare(share float64) string {
	v := 100 * share
	if near := min(v, 100-v); near > 1e-9 && near < 0.95 && v < 99.95 {
		return fmt.Sprintf("%.1f", v)
	}
	return fmt.Sprintf("%.0f", v)
}

// WholePercent writes a share in whole percent, without claiming that anything is
// certain or out of the question: "over 99 %".
func WholePercent(share float64) string {
	const almost = 0.995
	switch {
	case share >= almost && share < 1:
		return "over 99" + NoBreak + "%"
	case share > 0 && share < 1-almost:
		return "under 1" + NoBreak + "%"
	}
	return fmt.Sprintf("%.0f"+NoBreak+"%%", 100*share)
}

// Estimated writes a chance that is estimated in whole percent: whatever was rounded away,
// it is never certain.
func Estimated(chance float64) string {
	const rest = 1e-6
	return WholePercent(min(max(chance, rest), 1-rest))
}

// Tiny writes a very small number to one digit: "3e-14".
func Tiny(x float64) string {
	return strings.Replace(strconv.FormatFloat(x, 'e', 0, 64), "e-0", "e-", 1)
}

// Residual is a number to one digit, without its unit: what an account is off by.
type Residual struct {
	Value    float64
	Quantity Quantity
}

// In implements [Part].
func (r Residual) In(sys units.System) string {
	if r.Value == 0 {
		return "0"
	}
	return Tiny(r.Quantity.In(r.Value, sys))
}
