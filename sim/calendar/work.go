package calendar

import (
	"fmt"
	"math"
	"slices"
	"sort"
	"time"

	"loamcast/sim/digest"
)

// Minutes of a day.
const minutesPerDay = 24 * 60

// Shift is a span of work within a weekday: [Open, Close) in minutes after
// midnight. A Close before Open is on the next day: {22 * 60, 6 * 60} works from
// ten in the evening until six. {0, 1440} is the whole day.
type Shift struct {
	Open, Close int
}

// Week holds the shifts that begin on each weekday, by [time.Weekday].
type Week [7][]Shift

// horizonYears is how far a calendar reaches from its start. Working it out in
// advance takes about a megabyte and some milliseconds.
const horizonYears = 100

// Work says when work is done. It covers 100 years from the start of its clock;
// asked about an instant outside them it panics, except for [Always], which has
// no bounds. It doesn't change, so that replications may share it.
type Work struct {
	always bool
	// shift is added to seconds of the clock for seconds of the spans, which begin
	// with the horizon.
	shift int64
	end   int64 // second at which the horizon ends

	// Spans of open time, in order and apart from one another.
	opens, closes []int64
	before        []int64 // working seconds in the spans before this one
	firstOfDay    []int32 // first span that closes after the day begins

	sum digest.Sum // of the spans and of where the horizon ends
}

// Always is a calendar that is never closed.
func Always() *Work { return &Work{always: true} }

// NewWork builds the calendar of a week with holidays, from the start of a clock.
// A holiday drops the shifts that begin on it; a night shift begun the day before
// goes on to its end. Shifts of one calendar may touch or overlap.
//
// It is an error if a shift or a holiday makes no sense, or if no shift is left
// in the whole horizon.
func NewWork(clock Clock, week Week, holidays ...Holiday) (*Work, error) {
	if !clock.Start.Valid() {
		return nil, fmt.Errorf("calendar: start %v is not a date", clock.Start)
	}
	if err := week.validate(); err != nil {
		return nil, fmt.Errorf("calendar: %w", err)
	}
	for _, h := range holidays {
		if err := h.validate(); err != nil {
			return nil, fmt.Errorf("calendar: %w", err)
		}
	}
	days := clock.Start.DaysUntil(clock.Start.AddYears(horizonYears))
	w := &Work{end: int64(days) * SecondsPerDay}
	w.fill(clock, week, holidayNumbers(clock.Start.Year, holidays), days)
	if len(w.opens) == 0 {
		return nil, fmt.Errorf("calendar: there are no working hours in %d years", horizonYears)
	}
	w.index(days)
	w.identify()
	return w, nil
}

// Later returns the same calendar on a clock that starts so many days later, for
// the same instants of civil time. It reaches as far as before, and so fewer
// seconds. days must not be negative.
func (w *Work) Later(days int) *Work {
	if days < 0 {
		panic(fmt.Errorf("calendar: a start %d days earlier", -days))
	}
	later := *w // shares the spans
	later.shift += int64(days) * SecondsPerDay
	return &later
}

func (w Week) validate() error {
	for day, shifts := range w {
		for _, s := range shifts {
			if s.Open < 0 || s.Open >= minutesPerDay || s.Close < 0 || s.Close > minutesPerDay {
				return fmt.Errorf("%v: shift from minute %d to %d is not within a day",
					time.Weekday(day), s.Open, s.Close)
			}
			if s.Open == s.Close {
				return fmt.Errorf("%v: shift opens and closes at minute %d (a whole day is 0 to %d)",
					time.Weekday(day), s.Open, minutesPerDay)
			}
		}
	}
	return nil
}

// sorted returns the week with its shifts in order of opening, and with closes
// of the next day counted from the same midnight as the opening.
func (w Week) sorted() Week {
	for day, shifts := range w {
		shifts = slices.Clone(shifts)
		for i, s := range shifts {
			if s.Close < s.Open {
				shifts[i].Close += minutesPerDay
			}
		}
		slices.SortFunc(shifts, func(a, b Shift) int { return a.Open - b.Open })
		w[day] = shifts
	}
	return w
}

// holidayNumbers lists the days of all holidays, by [Date.Number], in order.
func holidayNumbers(firstYear int, holidays []Holiday) []int {
	var numbers []int
	for _, h := range holidays {
		// A night shift of the day before the start may reach into it.
		for year := firstYear - 1; year <= firstYear+horizonYears; year++ {
			if d, ok := h.In(year); ok {
				numbers = append(numbers, d.Number())
			}
		}
	}
	slices.Sort(numbers)
	return numbers
}

// fill lists the open spans of the horizon, beginning with the eve of its first
// day, whose night shift may reach into it.
func (w *Work) fill(clock Clock, week Week, holidays []int, days int) {
	week = week.sorted()
	first := clock.Start.Number()
	for day := -1; day < days; day++ {
		if _, off := slices.BinarySearch(holidays, first+day); off {
			continue
		}
		midnight := int64(day) * SecondsPerDay
		for _, s := range week[weekdayOfNumber(first+day)] {
			w.open(midnight+int64(s.Open)*60, midnight+int64(s.Close)*60)
		}
	}
}

// open adds a span that begins no earlier than the last one, cut to the horizon.
func (w *Work) open(from, to int64) {
	from, to = max(from, 0), min(to, w.end)
	if from >= to {
		return
	}
	if last := len(w.closes) - 1; last >= 0 && from <= w.closes[last] {
		w.closes[last] = max(w.closes[last], to)
		return
	}
	w.opens = append(w.opens, from)
	w.closes = append(w.closes, to)
}

// index makes the sums and the entry points that keep every question short.
func (w *Work) index(days int) {
	w.before = make([]int64, len(w.opens))
	for i := 1; i < len(w.opens); i++ {
		w.before[i] = w.before[i-1] + w.closes[i-1] - w.opens[i-1]
	}
	w.firstOfDay = make([]int32, days)
	span := 0
	for day := range days {
		for span < len(w.closes) && w.closes[span] <= int64(day)*SecondsPerDay {
			span++
		}
		w.firstOfDay[day] = int32(span)
	}
}

// span returns the first span that closes after sec, in seconds of the spans as
// in all that follow; there may be none left.
func (w *Work) span(sec int64) int {
	if sec < w.shift || sec >= w.end {
		panic(fmt.Errorf("calendar: second %d is outside the %d years of this calendar", sec, horizonYears))
	}
	i := int(w.firstOfDay[sec/SecondsPerDay])
	for i < len(w.closes) && w.closes[i] <= sec {
		i++
	}
	return i
}

// mustHave panics when the horizon ends before span i.
func (w *Work) mustHave(i int) {
	if i >= len(w.opens) {
		panic(fmt.Errorf("calendar: no more working hours in the %d years of this calendar", horizonYears))
	}
}

// IsAlways reports whether the calendar is never closed.
func (w *Work) IsAlways() bool { return w.always }

// IsOpen reports whether work is done at a second.
func (w *Work) IsOpen(sec int64) bool {
	if w.always {
		return true
	}
	sec += w.shift
	i := w.span(sec)
	return i < len(w.opens) && w.opens[i] <= sec
}

// NextOpen returns sec itself when it is open, else the next opening.
func (w *Work) NextOpen(sec int64) int64 {
	if w.always {
		return sec
	}
	i := w.span(sec + w.shift)
	w.mustHave(i)
	return max(sec, w.opens[i]-w.shift)
}

// NextClose returns the end of the shift that sec is in, or of the next one when
// it is closed. Shifts that touch are one. For [Always] it is the largest int64.
func (w *Work) NextClose(sec int64) int64 {
	if w.always {
		return math.MaxInt64
	}
	i := w.span(sec + w.shift)
	w.mustHave(i)
	return w.closes[i] - w.shift
}

// Between returns the working seconds from a to b, negative when b is earlier.
func (w *Work) Between(a, b int64) int64 {
	if w.always {
		return b - a
	}
	return w.elapsed(b+w.shift) - w.elapsed(a+w.shift)
}

// elapsed returns the working seconds from the start of the horizon to sec.
func (w *Work) elapsed(sec int64) int64 {
	i := w.span(sec)
	if i == len(w.opens) {
		i--
	}
	return w.before[i] + min(max(sec-w.opens[i], 0), w.closes[i]-w.opens[i])
}

// AddWork returns the instant at which work that begins at sec is finished, if it
// pauses while the calendar is closed: the first at which the working seconds
// since sec are as many as the work. No work is finished at once. Negative work
// panics.
func (w *Work) AddWork(sec, work int64) int64 {
	if work < 0 {
		panic(fmt.Errorf("calendar: %d seconds of work", work))
	}
	if w.always || work == 0 {
		return sec + work
	}
	done := w.elapsed(sec+w.shift) + work
	// The last span with less work before it than will be done.
	i := sort.Search(len(w.before), func(i int) bool { return w.before[i] >= done }) - 1
	end := w.opens[i] + done - w.before[i]
	if end > w.closes[i] {
		w.mustHave(i + 1)
	}
	return end - w.shift
}
