package calendar

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func mustDate(t testing.TB, s string) Date {
	t.Helper()
	d, err := ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// The last day to order for a day of need, and the day on which what is ordered
// then is there, by hand on the calendar.
func TestSpanByHand(t *testing.T) {
	for _, tc := range []struct {
		span                Span
		needed, order, then string
	}{
		{Span{Months: 18}, "2045-01-01", "2043-07-01", "2045-01-01"},
		{Span{Months: 12}, "2037-07-01", "2036-07-01", "2037-07-01"},
		{Span{Months: 12}, "2028-02-29", "2027-02-28", "2028-02-28"}, // a day early
		{Span{Months: 1}, "2026-03-31", "2026-02-28", "2026-03-28"},  // three days early
		{Span{Months: 1}, "2026-03-01", "2026-02-01", "2026-03-01"},
		{Span{Days: 252}, "2030-10-01", "2030-01-22", "2030-10-01"},
		{Span{Months: 1, Days: 16}, "2030-03-01", "2030-01-13", "2030-03-01"},
		{Span{Months: 2, Days: 1}, "2027-01-01", "2026-10-31", "2027-01-01"},
		{Span{}, "2030-03-31", "2030-03-31", "2030-03-31"},
	} {
		if got := tc.span.Before(mustDate(t, tc.needed)).String(); got != tc.order {
			t.Errorf("%+v before %s is %s, want %s", tc.span, tc.needed, got, tc.order)
		}
		if got := tc.span.After(mustDate(t, tc.order)).String(); got != tc.then {
			t.Errorf("%+v after %s is %s, want %s", tc.span, tc.order, got, tc.then)
		}
	}
}

// Where the month has no such day, what is ordered comes on the first of the
// next, and not on the last of the short one.
func TestSpanEndsOfMonths(t *testing.T) {
	for _, tc := range []struct {
		from   string
		months int
		want   string
	}{
		{"2026-01-31", 1, "2026-03-01"},
		{"2026-01-29", 1, "2026-03-01"},
		{"2028-01-30", 1, "2028-03-01"},
		{"2028-01-29", 1, "2028-02-29"},
		{"2028-02-29", 12, "2029-03-01"},
		{"2026-03-31", 3, "2026-07-01"},
		{"2026-12-31", 1, "2027-01-31"},
	} {
		if got := (Span{Months: tc.months}).After(mustDate(t, tc.from)).String(); got != tc.want {
			t.Errorf("%d months after %s: %s, want %s", tc.months, tc.from, got, tc.want)
		}
	}
}

// Before gives the last day of order that is in time: an order comes no later
// than it is needed exactly if it is placed by then. So what is ordered on that
// day is never late, a day later would be, and neither direction loses time
// against the other.
func TestSpanInTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Span{Months: rapid.IntRange(0, 240).Draw(t, "months"), Days: rapid.IntRange(0, 400).Draw(t, "days")}
		needed := DateOfNumber(rapid.IntRange(0, 60_000).Draw(t, "needed"))
		last := s.Before(needed)
		if there := s.After(last); needed.Before(there) {
			t.Fatalf("ordered on %v, %+v before %v, it comes on %v", last, s, needed, there)
		}
		if there := s.After(last.AddDays(1)); !needed.Before(there) {
			t.Fatalf("ordered a day after %v it still comes in time, on %v", last, there)
		}
		order := last.AddDays(rapid.IntRange(-70, 70).Draw(t, "off"))
		if inTime, by := !needed.Before(s.After(order)), !last.Before(order); inTime != by {
			t.Fatalf("ordered on %v it comes on %v, needed on %v, but the last day is %v", order, s.After(order), needed, last)
		}
		if again := s.Before(s.After(order)); again.Before(order) {
			t.Fatalf("%v and %+v is %v, and that back is %v", order, s, s.After(order), again)
		}
		if later := s.After(order.AddDays(1)); later.Before(s.After(order)) {
			t.Fatalf("ordered after %v it comes before, on %v", order, later)
		}
		if order.Day <= 28 && s.Days == 0 && s.Before(s.After(order)) != order {
			t.Fatalf("whole months from %v and back: %v", order, s.Before(s.After(order)))
		}
	})
}

// Anniversaries are whole years, days between them parts of the year that they
// lie in, before and after the first day; later days are more years.
func TestYearsUntil(t *testing.T) {
	for _, tc := range []struct {
		from, to string
		want     float64
	}{
		{"2027-07-01", "2030-07-01", 3},
		{"2027-07-01", "2025-07-01", -2},
		{"2027-07-01", "2028-01-01", 184.0 / 366}, // of a year with 29 February
		{"2027-07-01", "2027-01-01", -181.0 / 365},
		{"2028-02-29", "2029-02-28", 1},
	} {
		if got := mustDate(t, tc.from).YearsUntil(mustDate(t, tc.to)); math.Abs(got-tc.want) > 1e-12 {
			t.Errorf("%s to %s: %g years, want %g", tc.from, tc.to, got, tc.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		from := DateOfNumber(rapid.IntRange(0, 40_000).Draw(t, "from"))
		to := from.AddDays(rapid.IntRange(-9000, 9000).Draw(t, "days"))
		if a, b := from.YearsUntil(to), from.YearsUntil(to.AddDays(1)); a >= b || b-a > 1.0/365+1e-12 {
			t.Fatalf("%v to %v is %g years, and to the day after %g", from, to, a, b)
		}
	})
}
