package calendar

import (
	"fmt"
	"time"
)

// Clock ties seconds of a run to civil time: second 0 is midnight at the
// beginning of Start. Seconds before 0 are days before Start.
type Clock struct {
	Start Date
}

// DateOf returns the date on which a second falls.
func (c Clock) DateOf(sec int64) Date {
	return c.Start.AddDays(dayOf(sec))
}

// SecondOf returns the second at which a date begins.
func (c Clock) SecondOf(d Date) int64 {
	return int64(c.Start.DaysUntil(d)) * SecondsPerDay
}

// Year returns the year in which a second falls.
func (c Clock) Year(sec int64) int { return c.DateOf(sec).Year }

// Month returns the month in which a second falls.
func (c Clock) Month(sec int64) time.Month { return c.DateOf(sec).Month }

// Weekday returns the day of the week on which a second falls.
func (c Clock) Weekday(sec int64) time.Weekday { return c.DateOf(sec).Weekday() }

// SecondOfDay returns the seconds since midnight, 0 to 86,399.
func (c Clock) SecondOfDay(sec int64) int64 {
	return sec - int64(dayOf(sec))*SecondsPerDay
}

// Stamp writes an instant as "2031-04-17 08:30", seconds cut off.
func (c Clock) Stamp(sec int64) string {
	s := c.SecondOfDay(sec)
	return fmt.Sprintf("%v %02d:%02d", c.DateOf(sec), s/3600, s/60%60)
}

// dayOf numbers the day of the run in which a second falls; the first is 0.
func dayOf(sec int64) int { return floorDiv(int(sec), SecondsPerDay) }
