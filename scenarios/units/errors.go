package units

import (
	"slices"
	"strconv"
	"strings"

	"loamcast/scenarios/units/spelling"
)

// Error is what is wrong with a quantity's text, and what would be right.
type Error struct {
	Problem string
	Hint    string
	Unknown string // the name in it that no unit has; empty for other faults
}

// Error joins the problem and the hint.
func (e *Error) Error() string { return e.Problem + "; " + e.Hint }

func fault(problem, hint string) error { return &Error{Problem: problem, Hint: hint} }

// quote puts text between quotation marks and shortens it if it is long.
func quote(text string) string {
	if r := []rune(text); len(r) > 40 {
		text = string(r[:37]) + "..."
	}
	return strconv.Quote(text)
}

// lookUp returns the unit of that name or an error that explains why there is
// none; an error without a hint is for the caller to complete.
func lookUp(name string) (*unit, error) {
	if u := findUnit(name); u != nil {
		return u, nil
	}
	lower := strings.ToLower(name)
	switch {
	case name == "":
		return nil, fault("a unit is missing beside \"/\" or \"·\"", "write a unit such as lb/yd3")
	case lower == "ton" || lower == "tons":
		return nil, fault(quote(name)+" can mean three masses",
			"which one: short ton (2,000 lb), metric ton (t, 1,000 kg) or long ton (2,240 lb)?")
	case strings.HasPrefix(lower, "dry ") || strings.HasPrefix(lower, "wet "):
		return nil, fault(quote(name)+" names a basis, and a unit has none",
			"the field says whether dry or wet is meant; write "+withoutBasis(name[len("dry "):]))
	case startsWithDigit(name):
		return nil, fault("a second number, "+quote(name)+", stands where a unit should",
			"write one number, then its unit")
	}
	unknown := &Error{Problem: "no unit is called " + quote(name), Unknown: name}
	if near, ok := spelling.Nearest(name, unitNames); ok {
		unknown.Hint = "did you mean " + near + "?"
	}
	return nil, unknown
}

// withoutBasis is what to write for a unit that came with its basis: itself, or, where
// that would not be read either, what is.
func withoutBasis(unit string) string {
	if findUnit(unit) != nil {
		return strconv.Quote(unit)
	}
	if lower := strings.ToLower(unit); lower == "ton" || lower == "tons" {
		return `"short ton", or "t" for metric tons`
	}
	return "the unit alone"
}

// advise fills in the hint of an error that has none: the currency that was probably
// meant where money is, and else what to write for a dimension and a number.
func advise(err error, dim wanted, number string) error {
	e, ok := err.(*Error)
	if !ok || e.Hint != "" {
		return err
	}
	e.Hint = adviceFor(number, dim)
	if dim.Monetary() {
		if near, ok := spelling.Nearest(e.Unknown, currencies); ok && len(e.Unknown) == len(USD) {
			e.Hint = "did you mean " + near + "?"
		}
	}
	return e
}

func startsWithDigit(name string) bool {
	name = strings.TrimLeft(name, "+-–.,")
	return name != "" && name[0] >= '0' && name[0] <= '9'
}

// unitNames lists every spelling, in the table's order, but for the codes of
// currencies, some of which is near to any three letters, where people do not write
// signs for them.
var unitNames = func() []string {
	var names []string
	for _, u := range unitTable {
		if u.currency == "" || len(u.names) > 1 {
			names = append(names, u.names...)
		}
	}
	return names
}()

// describe names the kind of quantity that c measures: "a volume".
func describe(c compound) string {
	switch {
	case c.empty:
		return "a bare number"
	case c.powers == exponents{} && !c.inverse:
		return Fraction.String()
	}
	kind := slices.IndexFunc(bases, func(b compound) bool { return !b.empty && b.powers == c.powers })
	if kind < 0 {
		return "another kind of quantity"
	}
	return Dimension(kind).String()
}
