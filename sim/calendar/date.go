package calendar

import (
	"fmt"
	"time"
)

// Lengths. A year is the mean one, by which rates per year are counted.
const (
	SecondsPerDay  = 86_400
	MonthsPerYear  = 12
	DaysPerYear    = 365.25
	SecondsPerYear = DaysPerYear * SecondsPerDay
)

// Date is a day of the proleptic Gregorian calendar. The zero Date is not a
// valid day; see [Date.Valid].
type Date struct {
	Year  int
	Month time.Month
	Day   int
}

// ParseDate reads a date written as "2026-07-01".
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(time.DateOnly, s)
	if err != nil {
		return Date{}, fmt.Errorf("calendar: %q is not a date such as 2026-07-01", s)
	}
	return Date{t.Year(), t.Month(), t.Day()}, nil
}

// String writes the date as "2026-07-01".
func (d Date) String() string {
	return fmt.Sprintf("%04d-%02d-%02d", d.Year, int(d.Month), d.Day)
}

// Valid reports whether d is a day of the calendar.
func (d Date) Valid() bool {
	return d.Month >= 1 && d.Month <= 12 && d.Day >= 1 && d.Day <= DaysIn(d.Year, d.Month)
}

// Number counts days from 1970-01-01, which is 0. The months are counted from
// March, so that the leap day is the last day of a counted year and every
// earlier month begins at a fixed day of it.
func (d Date) Number() int {
	y, m := d.Year, int(d.Month)-3
	if m < 0 {
		y, m = y-1, m+12
	}
	dayOfYear := (153*m+2)/5 + d.Day - 1
	return y*365 + floorDiv(y, 4) - floorDiv(y, 100) + floorDiv(y, 400) + dayOfYear - 719_468
}

// DateOfNumber is the inverse of [Date.Number].
func DateOfNumber(n int) Date {
	n += 719_468 // days since 0000-03-01
	era := floorDiv(n, daysPerEra)
	day := n - era*daysPerEra
	year := (day - day/1460 + day/36_524 - day/146_096) / 365
	dayOfYear := day - (365*year + year/4 - year/100)
	m := (5*dayOfYear + 2) / 153
	d := Date{Year: era*400 + year, Day: dayOfYear - (153*m+2)/5 + 1}
	if m < 10 {
		d.Month = time.Month(m + 3)
	} else {
		d.Month = time.Month(m - 9)
		d.Year++
	}
	return d
}

// daysPerEra is the length of the calendar's cycle of 400 years.
const daysPerEra = 146_097

// AddDays returns the date n days later.
func (d Date) AddDays(n int) Date {
	const inAllMonths = 28
	if day := d.Day + n; day >= 1 && day <= inAllMonths { // mostly, and at once
		return Date{d.Year, d.Month, day}
	}
	return DateOfNumber(d.Number() + n)
}

// AddMonths returns the same day n months later, or the last day of that month
// when it is too short: 2026-01-31 and one month give 2026-02-28.
func (d Date) AddMonths(n int) Date {
	months := d.Year*12 + int(d.Month) - 1 + n
	year := floorDiv(months, 12)
	month := time.Month(months - year*12 + 1)
	return Date{year, month, min(d.Day, DaysIn(year, month))}
}

// AddYears returns the same day n years later; 29 February gives the 28th in
// a common year.
func (d Date) AddYears(n int) Date { return d.AddMonths(12 * n) }

// DaysUntil returns the number of days from d to e, negative if e is earlier.
func (d Date) DaysUntil(e Date) int { return e.Number() - d.Number() }

// Before reports whether d is earlier than e.
func (d Date) Before(e Date) bool {
	if d.Year != e.Year {
		return d.Year < e.Year
	}
	if d.Month != e.Month {
		return d.Month < e.Month
	}
	return d.Day < e.Day
}

// Weekday returns the day of the week.
func (d Date) Weekday() time.Weekday { return weekdayOfNumber(d.Number()) }

func weekdayOfNumber(n int) time.Weekday {
	const thursday = 4 // 1970-01-01
	w := (n + thursday) % 7
	if w < 0 {
		w += 7
	}
	return time.Weekday(w)
}

// DayOfYear returns the day's number in its year, 1 to 366.
func (d Date) DayOfYear() int { return d.Number() - Date{d.Year, 1, 1}.Number() + 1 }

// IsLeap reports whether the year has a 29 February.
func IsLeap(year int) bool { return year%4 == 0 && (year%100 != 0 || year%400 == 0) }

// DaysIn returns the number of days in a month.
func DaysIn(year int, month time.Month) int {
	switch month {
	case time.February:
		if IsLeap(year) {
			return 29
		}
		return 28
	case time.April, time.June, time.September, time.November:
		return 30
	}
	return 31
}

// floorDiv divides and rounds down, also below zero.
func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
