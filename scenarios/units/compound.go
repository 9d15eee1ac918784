package units

import "strings"

// compound is a unit expression, such as "lb/yd3", worked out. A value v in it
// is (v − offset)·num/den in kg, m, s, °C and money; the offset is zero but for
// a temperature by itself.
type compound struct {
	num, den float64
	powers   exponents
	offset   float64
	us       bool   // uses a US customary unit
	percent  bool   // uses % or ppm
	inverse  bool   // begins with a slash: the numerator is left out
	empty    bool   // no unit at all
	months   int    // of the calendar, of a unit by itself
	currency string // that it names, if any
}

// parseCompound works out a unit expression: names joined by "·" and "/", the
// word "per" for "/". After a slash everything up to the next slash divides,
// as the trade writes "m3/m2·h"; parentheses around such a part are allowed.
func parseCompound(expression string) (compound, error) {
	c := compound{num: 1, den: 1}
	if expression == "" {
		c.empty = true
		return c, nil
	}
	parts := strings.Split(expandPer(expression), "/")
	count := 0
	for i, part := range parts {
		part = strings.TrimSpace(part)
		if i == 0 && (part == "" || part == "1") && len(parts) > 1 {
			c.inverse = true
			continue
		}
		if strings.HasPrefix(part, "(") && strings.HasSuffix(part, ")") {
			part = part[1 : len(part)-1]
		}
		for _, name := range strings.Split(part, "·") {
			u, err := lookUp(strings.Join(strings.Fields(name), " "))
			if err != nil {
				return compound{}, err
			}
			c.apply(u, i > 0)
			count++
		}
	}
	if count > 1 || c.inverse {
		c.offset = 0 // per degree, a degree is a difference
		c.months = 0
	}
	return c, nil
}

// apply multiplies c by u, or divides it.
func (c *compound) apply(u *unit, divide bool) {
	sign := 1
	if divide {
		sign = -1
		c.num, c.den = c.num*u.den, c.den*u.num
	} else {
		c.num, c.den = c.num*u.num, c.den*u.den
	}
	for i, p := range u.powers {
		c.powers[i] += sign * p
	}
	c.offset, c.months = u.offset, u.months
	c.us = c.us || u.us
	c.percent = c.percent || u.percent
	if u.currency != "" {
		c.currency = u.currency
	}
}

// expandPer turns the word "per" into a slash.
func expandPer(expression string) string {
	words := strings.Fields(expression)
	for i, word := range words {
		if strings.EqualFold(word, "per") {
			words[i] = "/"
		}
	}
	return strings.Join(words, " ")
}

// to converts a value from c to base.
func (c compound) to(base compound, value float64) float64 {
	return (value - c.offset) * (c.num * base.den) / (c.den * base.num)
}

// from converts a value from base to c.
func (c compound) from(base compound, value float64) float64 {
	return value*(c.den*base.num)/(c.num*base.den) + c.offset
}
