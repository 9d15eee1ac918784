package money

import (
	"fmt"
	"strings"
)

// InternalRate holds the rates of return of some payments: every rate above −1,
// per year, at which their present worth is 0, in ascending order. One rate is
// an answer; none or several are not, and Warning says so.
type InternalRate struct{ All []float64 }

// Sole returns the rate if there is exactly one.
func (r InternalRate) Sole() (rate float64, ok bool) {
	if len(r.All) != 1 {
		return 0, false
	}
	return r.All[0], true
}

// Warning says what is wrong with the rate of return as a measure for these
// payments, and is empty if there is exactly one.
func (r InternalRate) Warning() string {
	switch len(r.All) {
	case 0:
		return "no rate of return: the present worth is never zero"
	case 1:
		return ""
	}
	shown := make([]string, len(r.All))
	for i, rate := range r.All {
		shown[i] = fmt.Sprintf("%.4g %%", 100*rate)
	}
	return fmt.Sprintf("%d rates of return (%s), so that none of them is a measure; compare present worths", len(r.All), strings.Join(shown, ", "))
}

// InternalRates finds every rate of return of the payments, given in any order
// with finite amounts and instants. Payments that are all of one sign have none.
// Rates from −1 + 2e-14 to 7e13 per year are found.
func InternalRates(payments []Payment) InternalRate {
	return InternalRate{All: ratesOf(zerosOf(merge(payments)))}
}
