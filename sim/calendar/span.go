package calendar

// Span is a length of time as people agree on it: whole months of the calendar,
// and then days. Neither is negative. Eighteen months are no number of days: from
// 2043-07-01 they reach to 2045-01-01, and from half a year later one day less far.
type Span struct {
	Months, Days int
}

// After returns the day on which what takes a span is there, if it begins on d.
// Where the month that it ends in has no such day, that is the first of the month
// after: a month from 2026-01-31 is over on 2026-03-01.
func (s Span) After(d Date) Date {
	end := d.AddMonths(s.Months)
	if end.Day < d.Day {
		end = end.AddDays(1)
	}
	return end.AddDays(s.Days)
}

// Before returns the last day on which what takes a span may begin to be there on
// d: s.After(begin) is no later than d exactly if begin is no later than
// s.Before(d).
func (s Span) Before(d Date) Date { return d.AddDays(-s.Days).AddMonths(-s.Months) }

// YearsUntil returns the years from d to e, negative if e is earlier. They are
// counted from anniversary to anniversary, so that an anniversary is a whole
// number, with the days of the last one as a part of its length.
func (d Date) YearsUntil(e Date) float64 {
	whole := e.Year - d.Year
	if e.Before(d.AddYears(whole)) {
		whole--
	}
	since := d.AddYears(whole)
	length := since.DaysUntil(d.AddYears(whole + 1))
	return float64(whole) + float64(since.DaysUntil(e))/float64(length)
}
