package units

import (
	"strconv"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
)

// Months and years are those of the calendar, whatever they are called; other
// units are days; parts are rounded up to days. By hand, with 30.4375 days in a
// month.
func TestParseSpan(t *testing.T) {
	for text, want := range map[string]calendar.Span{
		"12 month": {Months: 12}, "1 year": {Months: 12}, "18 mo": {Months: 18}, "2 yr": {Months: 24}, "2 years": {Months: 24},
		"1.5 year": {Months: 18}, "0.1 year": {Months: 1, Days: 7}, "1.1 year": {Months: 13, Days: 7},
		"1.5 month": {Months: 1, Days: 16}, "0.5 month": {Days: 16}, "0.7 year": {Months: 8, Days: 13},
		"36 week": {Days: 252}, "270 day": {Days: 270}, "365.25 d": {Days: 366}, "36 h": {Days: 2}, "86400 s": {Days: 1}, "1 s": {Days: 1},
		"0 day": {}, "0 month": {}, "1,000 day": {Days: 1000},
	} {
		got, err := ParseSpan(text)
		if err != nil || got != want {
			t.Errorf("%s is %+v, %v, want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "12", "12 gal", "1 year 6 month", "1 month/day", "month"} {
		if got, err := ParseSpan(text); err == nil {
			t.Errorf("%q reads as %+v", text, got)
		}
	}
}

// A span is never shorter than the duration that the same text is, by mean
// lengths, and less than a day longer.
func TestParseSpanRoundsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		unit := rapid.SampledFrom([]string{"day", "week", "month", "year", "h", "min"}).Draw(t, "unit")
		text := strconv.FormatFloat(rapid.Float64Range(0, 20).Draw(t, "value"), 'g', -1, 64) + " " + unit
		span, err := ParseSpan(text)
		if err != nil {
			t.Fatal(err)
		}
		seconds, err := Parse(text, Duration)
		if err != nil {
			t.Fatal(err)
		}
		longer := float64(span.Months)*calendar.DaysPerYear/calendar.MonthsPerYear + float64(span.Days) - seconds/calendar.SecondsPerDay
		if longer < -1e-5 || longer >= 1 {
			t.Fatalf("%s is %+v, %g days longer", text, span, longer)
		}
	})
}
