package yamlfile

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"time"
	"unicode"

	"go.yaml.in/yaml/v4"

	"loamcast/scenarios/units"
	"loamcast/scenarios/units/spelling"
	"loamcast/sim/calendar"
)

// fault is why a text is not the value that was asked for.
//
// Faults of the same cause, if they have one, are told once for the whole file.
type fault struct{ message, hint, cause string }

func wrong(message, hint string) *fault { return &fault{message: message, hint: hint} }

// causeOf is what several mistakes with quantities have in common: a name that no unit
// has.
func causeOf(e *units.Error) string {
	if e.Unknown == "" {
		return ""
	}
	return "unit " + e.Unknown
}

// reader turns the text of a single value into what was asked for.
type reader[T any] func(text string) (T, *fault)

// required reads the single value of a key that must be there.
func required[T any](m *Map, key, example string, read reader[T]) (value T) {
	if e := m.need(key, example); e != nil {
		value, _ = single(m, e, m.name(key), e.value, read)
	}
	return value
}

// optional reads the single value of a key that may be absent.
func optional[T any](m *Map, key string, def T, read reader[T]) T {
	if e := m.ask(key); e != nil {
		value, _ := single(m, e, m.name(key), e.value, read)
		return value
	}
	return def
}

// single reads one node as a single value; name is for messages.
func single[T any](m *Map, e *entry, name string, n *yaml.Node, read reader[T]) (value T, ok bool) {
	if n.Kind != yaml.ScalarNode {
		m.mismatch(e, name, n, "a single value", "write one value after the key")
		return value, false
	}
	problem := wrong("there is no value", "write one, or remove the line")
	if n.Tag != "!!null" {
		value, problem = read(n.Value)
	}
	if problem != nil {
		e.bad = true
		m.doc.complain(place(n), Error, name+": "+problem.message, problem.hint, problem.cause)
	}
	return value, problem == nil
}

// Quantity reads a quantity of dimension dim and returns it in the base unit.
func (m *Map) Quantity(key string, dim units.Dimension, checks ...Check) float64 {
	x := required(m, key, exampleFor(dim, checks), m.doc.quantity(dim, checks))
	return m.checked(key, x, dim, checks)
}

// QuantityOr is Quantity for an optional key; def is in the base unit.
func (m *Map) QuantityOr(key string, dim units.Dimension, def float64, checks ...Check) float64 {
	x := optional(m, key, def, m.doc.quantity(dim, checks))
	return m.checked(key, x, dim, checks)
}

// Span reads a duration by the calendar, as [units.ParseSpan] does. The checks are
// of its mean length, in s. Of a key that is not there or not good it is nothing.
func (m *Map) Span(key string, checks ...Check) calendar.Span {
	m.Quantity(key, units.Duration, checks...)
	if !m.Good(key) {
		return calendar.Span{}
	}
	span, _ := units.ParseSpan(m.byKey[key].value.Value) // takes what Quantity took
	return span
}

func (d *Document) quantity(dim units.Dimension, checks []Check) reader[float64] {
	example := exampleOf(checks)
	return func(text string) (float64, *fault) {
		x, err := units.ParseLike(text, dim, example)
		var e *units.Error
		if errors.As(err, &e) {
			return 0, &fault{e.Problem, e.Hint, causeOf(e)}
		}
		return x, d.foreign(text)
	}
}

// checked applies checks to a value that was read from the file without
// complaint. A value that fails a check is returned nevertheless: it is a
// number of the right kind.
func (m *Map) checked(key string, x float64, dim units.Dimension, checks []Check) float64 {
	if e := m.byKey[key]; e != nil && !e.bad {
		m.check(e, m.name(key), e.value, x, dim, checks)
	}
	return x
}

func (m *Map) check(e *entry, name string, n *yaml.Node, x float64, dim units.Dimension, checks []Check) {
	for _, c := range checks {
		if c.holds(x) {
			continue
		}
		message, hint := c.complaint(n.Value, dim)
		if c.source != "" {
			m.doc.WarnAt(place(n), name+": "+message, hint)
			continue
		}
		e.bad = true
		m.doc.ErrorAt(place(n), name+": "+message, hint)
		return
	}
}

var wholeNumber = regexp.MustCompile(`^-?(0|[1-9]\d{0,2}(,\d{3})+|[1-9]\d*)$`)

// Int reads a whole number without a unit.
func (m *Map) Int(key string, checks ...Check) int {
	n := required(m, key, "6", whole)
	return int(m.checked(key, float64(n), units.Dimensionless, checks))
}

// IntOr is Int for an optional key.
func (m *Map) IntOr(key string, def int, checks ...Check) int {
	n := optional(m, key, def, whole)
	return int(m.checked(key, float64(n), units.Dimensionless, checks))
}

// whole keeps to integers that a float64 holds exactly.
func whole(text string) (int, *fault) {
	digits := strings.ReplaceAll(text, ",", "")
	if !wholeNumber.MatchString(text) {
		return 0, wrong(quote(text)+" is not a whole number", "write digits without a unit, e.g. 6")
	}
	n, err := strconv.ParseInt(digits, 10, 54)
	if err != nil {
		return 0, wrong(quote(text)+" is too large a number", "check its digits")
	}
	return int(n), nil
}

// BoolOr reads true or false of an optional key.
func (m *Map) BoolOr(key string, def bool) bool { return optional(m, key, def, truth) }

func truth(text string) (bool, *fault) {
	switch text {
	case "true":
		return true, nil
	case "false":
		return false, nil
	}
	return false, wrong(quote(text)+" is neither true nor false", "write true or false")
}

// Text reads a text that is not empty.
func (m *Map) Text(key string) string { return required(m, key, "in your own words", anyText) }

// TextOr is Text for an optional key.
func (m *Map) TextOr(key, def string) string { return optional(m, key, def, anyText) }

func anyText(text string) (string, *fault) {
	text = strings.TrimSpace(text)
	if text == "" {
		return "", wrong("the text is empty", "write one, or remove the line")
	}
	if r := hidden(text); r != 0 {
		return "", wrong(fmt.Sprintf("the character U+%04X in it cannot be seen, and would reach every report", r), "write it without; letters, digits and signs of any script will do")
	}
	return text, nil
}

// hidden returns the first character of a text that is not seen where it stands
// but works on what is: line ends, control characters, marks that turn the
// direction of writing or have no width. Joiners, which some scripts need, are
// none.
func hidden(text string) rune {
	for _, r := range text {
		if r == '\u200c' || r == '\u200d' {
			continue
		}
		if unicode.IsControl(r) || unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) {
			return r
		}
	}
	return 0
}

// OneOf reads one of the given words.
func (m *Map) OneOf(key string, choices ...string) string {
	return required(m, key, choices[0], oneOf(choices))
}

// OneOfOr is OneOf for an optional key.
func (m *Map) OneOfOr(key, def string, choices ...string) string {
	return optional(m, key, def, oneOf(choices))
}

func oneOf(choices []string) reader[string] {
	return func(text string) (string, *fault) {
		for _, choice := range choices {
			if text == choice {
				return choice, nil
			}
		}
		hint := "write one of: " + strings.Join(choices, ", ")
		if near, ok := spelling.Nearest(text, choices); ok {
			hint = "did you mean " + near + "?"
		}
		return "", wrong(quote(text)+" is not one of the choices", hint)
	}
}

// Date reads a date such as 2027-07-01 and returns its midnight in UTC.
func (m *Map) Date(key string) time.Time { return required(m, key, "2027-07-01", date) }

func date(text string) (time.Time, *fault) {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, wrong(quote(text)+" is not a date", "write year, month and day, e.g. 2027-07-01")
	}
	return day, nil
}
