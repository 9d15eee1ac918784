package recycle

import (
	"testing"
	"time"
)

// Shows that curing takes the weather of the month of unloading: a load begun in
// the middle of a month that stays 18 days leaves in the next.
func TestMonthAfter(t *testing.T) {
	l := Loop{Month: time.December}
	for _, c := range []struct {
		days float64
		want time.Month
	}{{0, time.December}, {16.9, time.December}, {17.1, time.January}, {49, time.February}} {
		if got := l.monthAfter(c.days * 24); got != c.want {
			t.Errorf("%g days after mid-December: %s, want %s", c.days, got, c.want)
		}
	}
}
