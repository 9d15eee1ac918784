package units

import (
	"math"
	"strings"
)

// longest is the greatest number of bytes a quantity may be written in; it
// keeps exponents and messages small.
const longest = 120

// tidy writes every way of typing a sign, a power or a space in one way.
var tidy = strings.NewReplacer(
	"³", "3", "²", "2", "^3", "3", "^2", "2",
	"⋅", "·", "×", "·", "*", "·", "∙", "·",
	"º", "°", "˚", "°", "℃", "°C", "℉", "°F", "° ", "°",
	"−", "-", "\u00a0", " ", "\u202f", " ", "\u2009", " ",
)

// Parse reads a quantity such as "1,100 lb/yd3" and returns its value in the
// base unit of dim. A negative value is returned as it stands: what range is
// sensible, the caller knows. The error is an [*Error].
func Parse(text string, dim Dimension) (float64, error) { return ParseLike(text, dim, "") }

// ParseLike is Parse for a quantity of which there is an example, such as "0.051 kg/day
// or 0.11 lb/day": its error proposes those units and not the usual ones of dim.
func ParseLike(text string, dim Dimension, example string) (float64, error) {
	w := wanted{dim, example}
	value, c, err := split(text, w)
	if err != nil {
		return 0, err
	}
	if err := match(text, value, c, w); err != nil {
		return 0, err
	}
	if dim == TemperatureDifference {
		c.offset = 0
	}
	// Adding zero turns a negative zero into a plain one.
	result := c.to(bases[dim], value) + 0
	if math.IsInf(result, 0) || math.IsNaN(result) {
		return 0, fault(quote(text)+" is too large a number", "check its exponent and unit")
	}
	return result, nil
}

// wanted is a dimension, and an example of what to write, if there is a better one than
// the dimension's.
type wanted struct {
	Dimension
	example string
}

// Example returns what to write.
func (w wanted) Example() string {
	if w.example == "" {
		return w.Dimension.Example()
	}
	return w.example
}

// split parts a quantity into its number and its unit.
func split(text string, dim wanted) (float64, compound, error) {
	s := strings.TrimSpace(tidy.Replace(text))
	switch {
	case s == "":
		return 0, compound{}, fault("nothing is written where "+dim.String()+" is needed", advice(dim))
	case len(s) > longest:
		return 0, compound{}, fault(quote(text)+" is too long for a quantity", advice(dim))
	}
	s, currency := cutCurrency(s)
	value, rest, err := splitNumber(s)
	if err != nil {
		return 0, compound{}, advise(err, dim, "")
	}
	c, err := parseCompound(strings.TrimSpace(currency + rest))
	if err != nil {
		number := strings.TrimSpace(strings.TrimSuffix(s, rest))
		if strings.HasPrefix(rest, ":") && rest != ":1" {
			number = "" // "1:2.5" may mean either
		}
		return 0, compound{}, advise(err, dim, number)
	}
	return value, c, nil
}

// cutCurrency moves the sign of a currency from before the number to the unit:
// "$0.35/yd3" is "0.35 $/yd3".
func cutCurrency(s string) (rest, currency string) {
	sign := ""
	if strings.HasPrefix(s, "-") {
		sign, s = "-", s[1:]
	}
	for _, mark := range []string{"$", "€", "£"} {
		if after, found := strings.CutPrefix(s, mark); found {
			return sign + strings.TrimSpace(after), mark
		}
	}
	return sign + s, ""
}

// match reports an error unless the unit c measures what dim is.
func match(text string, value float64, c compound, dim wanted) error {
	base := bases[dim.Dimension]
	if c.empty {
		if dim.Bare() || value == 0 && dim.Dimension != Temperature { // nothing is nothing in any unit
			return nil
		}
		return fault(quote(text)+" has no unit, and "+dim.String()+" needs one", bareAdvice(text, value, dim))
	}
	powers := c.powers
	if c.inverse && base.powers[4] == 1 {
		powers[4]++ // "0.35 /yd3" is a price with the currency left out
	}
	kin := powers == base.powers
	switch dim.Dimension {
	case Dimensionless:
		kin = false
	case Ratio:
		kin = kin && !c.percent
	}
	if kin {
		return nil
	}
	return fault(quote(text)+" is "+describe(c)+", but "+dim.String()+" is needed", advice(dim))
}

// advice says what to write for a dimension.
func advice(dim wanted) string {
	if dim.Bare() {
		return "write " + dim.String() + " without a unit, e.g. " + dim.Example()
	}
	return "write " + dim.String() + " with its unit, e.g. " + dim.Example()
}

// adviceFor is advice for a number that was written; empty if there is none.
func adviceFor(number string, dim wanted) string {
	if number == "" {
		return advice(dim)
	}
	if dim.Bare() {
		return "write " + dim.String() + " without a unit: " + number
	}
	return "write " + dim.String() + " with its unit, e.g. " + inUnits(number, dim)
}

// inUnits is a number with the units that people mostly write for a dimension.
func inUnits(number string, dim wanted) string {
	written := strings.Split(dim.Example(), " or ")
	if dim.Dimension == Duration && dim.example == "" {
		written = []string{"1 year", "1 day", "1 h"}
	}
	for i, example := range written {
		_, unit, _ := splitNumber(example)
		written[i] = number + " " + unit
	}
	if last := len(written) - 1; last > 0 {
		return strings.Join(written[:last], ", ") + " or " + written[last]
	}
	return written[0]
}

// bareAdvice says what to write for a number that came without its unit. A
// fraction of up to one was most likely meant as part of one, not as percent.
func bareAdvice(text string, value float64, dim wanted) string {
	if dim.Dimension != Fraction {
		return adviceFor(strings.TrimSpace(text), dim)
	}
	if math.Abs(value) <= 1 {
		value *= 100
	}
	return "write it in percent: " + FormatNumber(value) + " %"
}

// SystemOf returns US if text names a US customary unit, and SI otherwise, with the
// currency that it names. It
// is meant for text that Parse has accepted, so that a message can answer in
// the units of the question.
func SystemOf(text string) System {
	_, c, err := split(text, wanted{Dimension: Dimensionless})
	if err == nil && c.us {
		return US.With(c.currency)
	}
	return SI.With(c.currency)
}
