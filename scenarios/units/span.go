package units

import (
	"math"

	"loamcast/sim/calendar"
)

// ParseSpan reads a duration by the calendar: months and years are months of the
// calendar, and every other unit is counted in days. What is no whole number of
// either is rounded up to days, a part of a month by its mean length: 1.5 month
// is a month and 16 days, 1.5 year 18 months, and 36 h are 2 days. It takes what
// [Parse] takes for a [Duration] that is not negative; the error is an [*Error].
func ParseSpan(text string) (calendar.Span, error) {
	seconds, err := Parse(text, Duration)
	if err != nil {
		return calendar.Span{}, err
	}
	value, c, err := split(text, wanted{Dimension: Duration})
	if err != nil {
		return calendar.Span{}, err
	}
	if c.months == 0 {
		return calendar.Span{Days: roundedUp(seconds / calendar.SecondsPerDay)}, nil
	}
	const nothing = 1e-9 // what rounding leaves of a month
	months := value * float64(c.months)
	whole := math.Floor(months + nothing)
	part := max(0, months-whole)
	return calendar.Span{Months: int(whole), Days: roundedUp(part * calendar.DaysPerYear / calendar.MonthsPerYear)}, nil
}

// roundedUp returns whole days, without those that rounding alone adds.
func roundedUp(days float64) int { return int(math.Ceil(days - 1e-6)) }
