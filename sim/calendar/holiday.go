package calendar

import (
	"fmt"
	"time"
)

// Holiday is a rule that names days on which no shift begins.
// Make one with [OnDate], [Yearly], [NthWeekday] or [LastWeekday].
type Holiday struct {
	kind    holidayKind
	date    Date // once: the date; yearly: month and day; by weekday: month
	weekday time.Weekday
	nth     int
}

type holidayKind int

const (
	once holidayKind = iota + 1
	yearly
	nthWeekday
	lastWeekday
)

// OnDate is a single date.
func OnDate(d Date) Holiday { return Holiday{kind: once, date: d} }

// Yearly is the same month and day of every year. 29 February comes in leap
// years only.
func Yearly(month time.Month, day int) Holiday {
	return Holiday{kind: yearly, date: Date{Month: month, Day: day}}
}

// NthWeekday is the first (n = 1) to fifth (n = 5) of a weekday in a month of
// every year, such as the fourth Thursday of November. A fifth comes only in
// years that have one.
func NthWeekday(n int, weekday time.Weekday, month time.Month) Holiday {
	return Holiday{kind: nthWeekday, nth: n, weekday: weekday, date: Date{Month: month}}
}

// LastWeekday is the last of a weekday in a month of every year.
func LastWeekday(weekday time.Weekday, month time.Month) Holiday {
	return Holiday{kind: lastWeekday, weekday: weekday, date: Date{Month: month}}
}

// validate says what is wrong with the rule, or nil.
func (h Holiday) validate() error {
	switch h.kind {
	case once:
		if !h.date.Valid() {
			return fmt.Errorf("holiday %v is not a date", h.date)
		}
	case yearly:
		const leapYear = 2000
		if !(Date{leapYear, h.date.Month, h.date.Day}).Valid() {
			return fmt.Errorf("yearly holiday: month %d has no day %d", int(h.date.Month), h.date.Day)
		}
	case nthWeekday, lastWeekday:
		if h.date.Month < time.January || h.date.Month > time.December {
			return fmt.Errorf("holiday by weekday: there is no month %d", int(h.date.Month))
		}
		if h.weekday < time.Sunday || h.weekday > time.Saturday {
			return fmt.Errorf("holiday by weekday: there is no weekday %d", int(h.weekday))
		}
		if h.kind == nthWeekday && (h.nth < 1 || h.nth > 5) {
			return fmt.Errorf("holiday by weekday: number %d is not 1 to 5", h.nth)
		}
	default:
		return fmt.Errorf("holiday without a rule")
	}
	return nil
}

// In returns the day of the year on which the holiday falls, if there is one.
func (h Holiday) In(year int) (Date, bool) {
	d := Date{year, h.date.Month, h.date.Day}
	switch h.kind {
	case once:
		return h.date, h.date.Year == year
	case nthWeekday:
		first := Date{year, h.date.Month, 1}
		d.Day = 1 + daysToWeekday(first.Weekday(), h.weekday) + 7*(h.nth-1)
	case lastWeekday:
		last := Date{year, h.date.Month, DaysIn(year, h.date.Month)}
		d.Day = last.Day - daysToWeekday(h.weekday, last.Weekday())
	}
	return d, d.Valid()
}

// daysToWeekday counts the days, 0 to 6, from one weekday on to another.
func daysToWeekday(from, to time.Weekday) int { return (int(to-from) + 7) % 7 }
