package question

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
)

// Kind says what an option's value is.
type Kind int

// Kinds of options.
const (
	Words    Kind = iota // a name or the like
	Integer              // a whole number
	Quantity             // a number with its unit
	Month                // a month, by name or number
	Months               // a month, or "all"
	Switch               // on or off
)

// Option is something that may be chosen beside the file.
type Option struct {
	Name  string
	Words string // what it is, for help
	Kind  Kind
	Dim   units.Dimension // of a Quantity
	// Default is what it is if nothing is said, as a user would write it; empty is
	// no value.
	Default string
	// Low and High bound numbers, in the base unit of Dim. Both are 0 where the
	// question itself knows the bounds.
	Low, High float64
	// Open leaves the bounds themselves out.
	Open bool
}

// Values are the options of one question, read and found within their bounds.
type Values struct {
	given map[string]bool
	texts map[string]string
	value map[string]float64
	money []paid // what was written with its currency
}

// paid is an amount of money as it was written.
type paid struct{ option, text, currency string }

// Read reads options as they were written; what is not there has its default. An
// error is an *answer.OptionError.
func Read(options []Option, written map[string]string) (Values, error) {
	v := Values{given: map[string]bool{}, texts: map[string]string{}, value: map[string]float64{}}
	for i := range options {
		o := &options[i]
		text, given := written[o.Name]
		v.given[o.Name] = given
		if !given {
			text = o.Default
		}
		v.texts[o.Name] = text
		if text == "" && (!given || o.Kind == Words || o.Kind == Quantity) {
			continue // nothing is asked for
		}
		value, err := o.read(text)
		if err != nil {
			return v, err
		}
		v.value[o.Name] = value
		if code := units.CurrencyOf(text); o.Kind == Quantity && code != "" {
			v.money = append(v.money, paid{o.Name, text, code})
		}
	}
	return v, nil
}

// paidIn refuses amounts in another currency than a file's, for nothing is converted.
// The error is an *answer.OptionError.
func (v Values) paidIn(currency string) error {
	if currency == "" {
		currency = units.USD
	}
	for _, p := range v.money {
		if p.currency != currency {
			return answer.WrongOption(p.option+":", "%q is in %s, but the file's money is %s; write it in %s, for nothing is converted", p.text, p.currency, currency, currency)
		}
	}
	return nil
}

// read returns the value of a text: a number in base units, a month from 1 to
// 12, or 1 for on.
func (o *Option) read(text string) (float64, error) {
	switch o.Kind {
	case Integer:
		n, err := strconv.Atoi(text)
		if err != nil {
			return 0, answer.WrongOption(o.Name, "%q: write a whole number", text)
		}
		return float64(n), o.within(float64(n), text)
	case Quantity:
		x, err := units.Parse(text, o.Dim)
		if err != nil {
			return 0, &answer.OptionError{Option: o.Name + ":", Reason: err.Error()}
		}
		return x, o.within(x, text)
	case Months, Month:
		if o.Kind == Months && strings.EqualFold(text, allMonths) {
			return 0, nil
		}
		m, ok := MonthNamed(text)
		if !ok {
			return 0, answer.WrongOption(o.Name, "%q: write a month such as jan, july or 7", text)
		}
		return float64(m), nil
	case Switch:
		on, err := strconv.ParseBool(text)
		if err != nil {
			return 0, answer.WrongOption(o.Name, "%q: write true or false", text)
		}
		if on {
			return 1, nil
		}
	}
	return 0, nil
}

// allMonths asks for every month.
const allMonths = "all"

// within checks a number against its bounds.
func (o *Option) within(x float64, text string) error {
	switch {
	case o.Low == 0 && o.High == 0:
		return nil
	case o.Open && x <= o.Low && math.IsInf(o.High, 1) && o.Low == 0:
		return answer.WrongOption(o.Name, "%s: it must be more than nothing", text)
	case o.Open && (x <= o.Low || x >= o.High):
		return answer.WrongOption(o.Name, "%s: it must be above %s and below %s", text, o.bound(o.Low, text), o.bound(o.High, text))
	case !(x >= o.Low && x <= o.High):
		return answer.WrongOption(o.Name, "%s: it must be from %s to %s", text, o.bound(o.Low, text), o.bound(o.High, text))
	}
	return nil
}

// bound writes a bound as a user would, in the currency of what he wrote.
func (o *Option) bound(x float64, text string) string {
	if o.Kind == Integer {
		return strconv.Itoa(int(x))
	}
	return units.Format(x, o.Dim, units.US.With(units.CurrencyOf(text)))
}

// MonthNamed reads "jan", "January" or "1".
func MonthNamed(text string) (m time.Month, ok bool) {
	if n, err := strconv.Atoi(text); err == nil && n >= 1 && n <= calendar.MonthsPerYear {
		return time.Month(n), true
	}
	const shortest = 3 // letters
	if name := strings.ToLower(text); len(name) >= shortest {
		for m := time.January; m <= time.December; m++ {
			if strings.HasPrefix(strings.ToLower(m.String()), name) {
				return m, true
			}
		}
	}
	return 0, false
}

// Given reports whether an option was written.
func (v Values) Given(name string) bool { return v.given[name] }

// Text returns an option as it was written, or its default.
func (v Values) Text(name string) string { return v.at(v.texts, name) }

func (v Values) at(texts map[string]string, name string) string {
	if _, ok := v.given[name]; !ok {
		panic(fmt.Sprintf("question: there is no option %q", name)) // a mistake in the program
	}
	return texts[name]
}

// Number returns a quantity in its base unit; 0 if there is none.
func (v Values) Number(name string) float64 {
	v.at(v.texts, name)
	return v.value[name]
}

// Int returns a whole number; 0 if there is none.
func (v Values) Int(name string) int { return int(v.Number(name)) }

// On reports whether a switch is on.
func (v Values) On(name string) bool { return v.Number(name) != 0 }

// Month returns a month; 0 if there is none.
func (v Values) Month(name string) time.Month { return time.Month(v.Int(name)) }

// Months returns the months asked for; none if nothing was said.
func (v Values) Months(name string) []time.Month {
	if strings.EqualFold(v.Text(name), allMonths) {
		all := make([]time.Month, calendar.MonthsPerYear)
		for i := range all {
			all[i] = time.Month(i + 1)
		}
		return all
	}
	if m := v.Month(name); m != 0 {
		return []time.Month{m}
	}
	return nil
}
