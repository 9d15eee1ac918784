package document

import (
	"testing"
	"time"

	"loamcast/sim/calendar"
)

// Every month lies in its quarter, in both ways of writing one.
func TestQuarters(t *testing.T) {
	names := []string{"first", "second", "third", "fourth"}
	for m := time.January; m <= time.December; m++ {
		d := calendar.Date{Year: 2037, Month: m, Day: 28}
		q := (m - 1) / 3
		if got, want := Quarter(d), "Q"+string(rune('1'+q))+" 2037"; got != want {
			t.Errorf("%v is in %q, want %q", m, got, want)
		}
		if got, want := QuarterInWords(d), "the "+names[q]+" quarter of 2037"; got != want {
			t.Errorf("%v is in %q, want %q", m, got, want)
		}
	}
}

// Months in a row are one run, also over the turn of the year.
func TestMonthNames(t *testing.T) {
	for _, c := range []struct {
		months []time.Month
		want   string
	}{
		{nil, ""},
		{[]time.Month{4}, "Apr"},
		{[]time.Month{8, 9, 10}, "Aug to Oct"},
		{[]time.Month{4, 5, 12}, "Apr, May and Dec"},
		{[]time.Month{11, 12, 1, 2}, "Nov to Feb"},
	} {
		if got := MonthNames(c.months); got != c.want {
			t.Errorf("%v is %q, want %q", c.months, got, c.want)
		}
	}
}

// A span is told in the months and days that it has, which are not turned into one
// another.
func TestSpansInWords(t *testing.T) {
	for span, want := range map[calendar.Span]string{
		{}: "0 days", {Days: 1}: "1 day", {Days: 252}: "252 days", {Months: 1}: "1 month", {Months: 12}: "12 months",
		{Months: 1, Days: 16}: "1 month and 16 days",
	} {
		if got := PlainSpaces(SpanInWords(span)); got != want {
			t.Errorf("%+v is %q, want %q", span, got, want)
		}
	}
}

// A number of days is told with at most one decimal.
func TestDaysInWords(t *testing.T) {
	for days, want := range map[float64]string{1: "1 day", 19.5: "19.5 days", 44: "44 days"} {
		if got := PlainSpaces(DaysInWords(days)); got != want {
			t.Errorf("%g days are %q, want %q", days, got, want)
		}
	}
}
