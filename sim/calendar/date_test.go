package calendar

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Shows that dates agree with the standard library's over four thousand years.
func TestDatesAgreeWithStandardLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(-700_000, 760_000).Draw(t, "day")
		d := DateOfNumber(n)
		std := time.Unix(int64(n)*SecondsPerDay, 0).UTC()
		if want := (Date{std.Year(), std.Month(), std.Day()}); d != want {
			t.Fatalf("day %d is %v, want %v", n, d, want)
		}
		if !d.Valid() || d.Number() != n {
			t.Fatalf("%v: valid %v, number %d, want %d", d, d.Valid(), d.Number(), n)
		}
		if d.Weekday() != std.Weekday() || d.DayOfYear() != std.YearDay() {
			t.Fatalf("%v: weekday %v, day of year %d", d, d.Weekday(), d.DayOfYear())
		}
		if d.Year >= 0 && d.Year <= 9999 {
			if back, err := ParseDate(d.String()); err != nil || back != d {
				t.Fatalf("%v reads back as %v, %v", d, back, err)
			}
		}
		m := rapid.IntRange(0, 2).Draw(t, "later")
		e := d.AddDays(m)
		if d.Before(e) != (m > 0) || e.Before(d) || d.DaysUntil(e) != m {
			t.Fatalf("order of %v and %v", d, e)
		}
	})
}

// Shows the rule for months that are too short, and years.
func TestAddMonths(t *testing.T) {
	for _, tc := range []struct {
		from   string
		months int
		want   string
	}{
		{"2026-01-31", 1, "2026-02-28"},
		{"2027-12-31", 2, "2028-02-29"},
		{"2026-07-01", 12, "2027-07-01"},
		{"2026-07-15", -7, "2025-12-15"},
		{"2028-02-29", 12, "2029-02-28"},
		{"2026-11-30", 1, "2026-12-30"},
	} {
		from, err := ParseDate(tc.from)
		if err != nil {
			t.Fatal(err)
		}
		if got := from.AddMonths(tc.months).String(); got != tc.want {
			t.Errorf("%s and %d months: %s, want %s", tc.from, tc.months, got, tc.want)
		}
	}
	if got := (Date{2028, 2, 29}).AddYears(4); got != (Date{2032, 2, 29}) {
		t.Errorf("four years on: %v", got)
	}
}

// Shows that what is not a date is refused.
func TestNotADate(t *testing.T) {
	for _, s := range []string{"", "2026-2-30", "2026-02-29", "01/02/2026", "2026-07-01x"} {
		if d, err := ParseDate(s); err == nil {
			t.Errorf("%q reads as %v", s, d)
		}
	}
	for _, d := range []Date{{}, {2026, 13, 1}, {2026, 0, 1}, {2026, 2, 29}, {2026, 4, 31}, {2026, 1, 0}} {
		if d.Valid() {
			t.Errorf("%v is valid", d)
		}
	}
}

// Shows the conversion between seconds and civil time, before the start too.
func TestClock(t *testing.T) {
	c := Clock{Start: Date{2031, 4, 16}}
	for _, tc := range []struct {
		sec   int64
		stamp string
	}{
		{0, "2031-04-16 00:00"},
		{SecondsPerDay + 8*3600 + 30*60 + 59, "2031-04-17 08:30"},
		{SecondsPerDay - 1, "2031-04-16 23:59"},
		{-1, "2031-04-15 23:59"},
		{15 * SecondsPerDay, "2031-05-01 00:00"},
	} {
		if got := c.Stamp(tc.sec); got != tc.stamp {
			t.Errorf("second %d is %s, want %s", tc.sec, got, tc.stamp)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		sec := rapid.Int64Range(-4e9, 4e9).Draw(t, "sec")
		d := c.DateOf(sec)
		if c.SecondOf(d)+c.SecondOfDay(sec) != sec {
			t.Fatalf("second %d is not %v and %d", sec, d, c.SecondOfDay(sec))
		}
		if c.Month(sec) != d.Month || c.Year(sec) != d.Year || c.Weekday(sec) != d.Weekday() {
			t.Fatalf("parts of second %d disagree", sec)
		}
	})
}
