package calendar

import (
	"math"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// The examples begin on Monday, 29 June 2026; Friday is 3 July.
var monday = Clock{Start: Date{2026, 6, 29}}

const hour = 3600

// at is the second of an hour of a day, counted from that Monday.
func at(day, h int64) int64 { return day*SecondsPerDay + h*hour }

func mustWork(t testing.TB, week Week, holidays ...Holiday) *Work {
	t.Helper()
	w, err := NewWork(monday, week, holidays...)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// everyDay has the same shifts on all seven days.
func everyDay(shifts ...Shift) Week {
	return Week{shifts, shifts, shifts, shifts, shifts, shifts, shifts}
}

// weekdays has the same shifts from Monday to Friday and none at the weekend.
func weekdays(shifts ...Shift) Week {
	w := everyDay(shifts...)
	w[time.Saturday], w[time.Sunday] = nil, nil
	return w
}

var dayShift = Shift{7 * 60, 15 * 60}

// Shows openings and closings by hand-made examples: a plain week, a holiday, a
// night shift over midnight, over a weekend and into a holiday, two shifts.
func TestOpenings(t *testing.T) {
	plain := mustWork(t, weekdays(dayShift))
	holiday := mustWork(t, weekdays(dayShift), OnDate(Date{2026, 7, 1}))
	night := mustWork(t, weekdays(Shift{22 * 60, 6 * 60}), OnDate(Date{2026, 7, 1}))
	split := mustWork(t, everyDay(Shift{13 * 60, 17 * 60}, Shift{7 * 60, 12 * 60}))
	whole := mustWork(t, weekdays(Shift{0, 1440}))
	for _, tc := range []struct {
		name         string
		w            *Work
		sec          int64
		open         bool
		opens, close int64
	}{
		{"before work", plain, at(0, 6), false, at(0, 7), at(0, 15)},
		{"at the opening", plain, at(0, 7), true, at(0, 7), at(0, 15)},
		{"last second", plain, at(0, 15) - 1, true, at(0, 15) - 1, at(0, 15)},
		{"at the close", plain, at(0, 15), false, at(1, 7), at(1, 15)},
		{"weekend", plain, at(5, 9), false, at(7, 7), at(7, 15)},
		{"holiday", holiday, at(2, 9), false, at(3, 7), at(3, 15)},
		{"night before midnight", night, at(0, 23), true, at(0, 23), at(1, 6)},
		{"night after midnight", night, at(1, 5), true, at(1, 5), at(1, 6)},
		{"night into a holiday", night, at(2, 5), true, at(2, 5), at(2, 6)},
		{"night of a holiday", night, at(2, 23), false, at(3, 22), at(4, 6)},
		{"Friday's night ends on Saturday", night, at(5, 3), true, at(5, 3), at(5, 6)},
		{"Sunday has no night", night, at(6, 23), false, at(7, 22), at(8, 6)},
		{"lunch", split, at(0, 12), false, at(0, 13), at(0, 17)},
		{"whole days are one span", whole, at(0, 0), true, at(0, 0), at(5, 0)},
		{"always", Always(), -5, true, -5, math.MaxInt64},
	} {
		if got := tc.w.IsOpen(tc.sec); got != tc.open {
			t.Errorf("%s: open is %v", tc.name, got)
		}
		if got := tc.w.NextOpen(tc.sec); got != tc.opens {
			t.Errorf("%s: opens at %d, want %d", tc.name, got, tc.opens)
		}
		if got := tc.w.NextClose(tc.sec); got != tc.close {
			t.Errorf("%s: closes at %d, want %d", tc.name, got, tc.close)
		}
	}
}

// Shows that the night before the first day reaches into it.
func TestEveOfTheStart(t *testing.T) {
	week := everyDay(Shift{22 * 60, 6 * 60})
	w := mustWork(t, week)
	if !w.IsOpen(0) || w.NextClose(0) != at(0, 6) {
		t.Error("the eve's night shift is missing")
	}
	w = mustWork(t, week, OnDate(Date{2026, 6, 28}))
	if w.IsOpen(0) {
		t.Error("the eve is a holiday, but its night shift is there")
	}
	newYear := Clock{Start: Date{2027, 1, 1}}
	for _, h := range []Holiday{OnDate(Date{2026, 12, 31}), Yearly(time.December, 31), LastWeekday(time.Thursday, time.December)} {
		w, err := NewWork(newYear, week, h)
		if err != nil || w.IsOpen(0) {
			t.Errorf("%+v: the eve is a holiday of the year before, but its night shift is there (%v)", h, err)
		}
	}
}

// Shows when work is finished that pauses off shift.
func TestAddWork(t *testing.T) {
	w := mustWork(t, weekdays(dayShift), Yearly(time.July, 4), OnDate(Date{2026, 7, 1}))
	for _, tc := range []struct {
		name           string
		sec, work, end int64
	}{
		{"within the shift", at(0, 8), 2 * hour, at(0, 10)},
		{"to the very end", at(0, 8), 7 * hour, at(0, 15)},
		{"a second over", at(0, 8), 7*hour + 1, at(1, 7) + 1},
		{"from before work", at(0, 0), hour, at(0, 8)},
		{"over a holiday", at(1, 14), 2 * hour, at(3, 8)},
		{"over the weekend", at(4, 14), 9 * hour, at(7, 15)},
		{"none, off shift", at(5, 3), 0, at(5, 3)},
	} {
		if got := w.AddWork(tc.sec, tc.work); got != tc.end {
			t.Errorf("%s: finished at %d, want %d", tc.name, got, tc.end)
		}
	}
	if got := Always().AddWork(5, 7); got != 12 {
		t.Errorf("always: finished at %d", got)
	}
}

// Shows holiday rules by dates that anyone can look up in a calendar.
func TestHolidays(t *testing.T) {
	for _, tc := range []struct {
		h    Holiday
		year int
		want string // "" for none
	}{
		{Yearly(time.January, 1), 2030, "2030-01-01"},
		{Yearly(time.February, 29), 2027, ""},
		{Yearly(time.February, 29), 2028, "2028-02-29"},
		{NthWeekday(4, time.Thursday, time.November), 2026, "2026-11-26"},
		{NthWeekday(1, time.Monday, time.September), 2026, "2026-09-07"},
		{NthWeekday(3, time.Monday, time.January), 2027, "2027-01-18"},
		{NthWeekday(5, time.Friday, time.July), 2026, "2026-07-31"},
		{NthWeekday(5, time.Friday, time.August), 2026, ""},
		{LastWeekday(time.Monday, time.May), 2026, "2026-05-25"},
		{LastWeekday(time.Sunday, time.May), 2026, "2026-05-31"},
		{OnDate(Date{2029, 3, 2}), 2029, "2029-03-02"},
		{OnDate(Date{2029, 3, 2}), 2030, ""},
	} {
		d, ok := tc.h.In(tc.year)
		if ok != (tc.want != "") || ok && d.String() != tc.want {
			t.Errorf("%+v in %d: %v, %v, want %q", tc.h, tc.year, d, ok, tc.want)
		}
	}
}

// Shows that calendars which make no sense are refused, with the reason.
func TestRefusedCalendars(t *testing.T) {
	ok := weekdays(dayShift)
	for _, tc := range []struct {
		name     string
		clock    Clock
		week     Week
		holidays []Holiday
		says     string
	}{
		{"never open", monday, Week{}, nil, "no working hours"},
		{"only on a holiday", monday, Week{time.Monday: {dayShift}}, everyWeek(time.Monday), "no working hours"},
		{"no start", Clock{}, ok, nil, "start 0000-00-00"},
		{"empty shift", monday, everyDay(Shift{60, 60}), nil, "opens and closes at minute 60"},
		{"too late", monday, everyDay(Shift{60, 1441}), nil, "not within a day"},
		{"too early", monday, everyDay(Shift{-1, 60}), nil, "not within a day"},
		{"no such date", monday, ok, []Holiday{OnDate(Date{2027, 2, 29})}, "2027-02-29 is not a date"},
		{"no such day", monday, ok, []Holiday{Yearly(4, 31)}, "no day 31"},
		{"no such month", monday, ok, []Holiday{NthWeekday(1, 1, 13)}, "no month 13"},
		{"no such weekday", monday, ok, []Holiday{LastWeekday(7, 1)}, "no weekday 7"},
		{"sixth", monday, ok, []Holiday{NthWeekday(6, 1, 1)}, "not 1 to 5"},
		{"no rule", monday, ok, []Holiday{{}}, "without a rule"},
	} {
		_, err := NewWork(tc.clock, tc.week, tc.holidays...)
		if err == nil || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("%s: error %v, want %q", tc.name, err, tc.says)
		}
	}
}

// everyWeek makes every occurrence of a weekday a holiday.
func everyWeek(day time.Weekday) []Holiday {
	var all []Holiday
	for month := time.January; month <= time.December; month++ {
		for n := 1; n <= 5; n++ {
			all = append(all, NthWeekday(n, day, month))
		}
	}
	return all
}

// Shows that questions outside the horizon panic with a clear error, and that
// those just inside are answered; that the night shift of the last day closes with
// the horizon.
func TestHorizon(t *testing.T) {
	night := mustWork(t, everyDay(Shift{22 * 60, 6 * 60}))
	if got := night.NextClose(night.end - 1); got != night.end {
		t.Errorf("the last night closes at second %d, the horizon ends at %d", got, night.end)
	}
	w := mustWork(t, weekdays(dayShift))
	last := w.end - 1
	w.IsOpen(last)
	w.Between(0, last)
	for name, ask := range map[string]func(){
		"before":      func() { w.IsOpen(-1) },
		"after":       func() { w.IsOpen(w.end) },
		"work beyond": func() { w.AddWork(last-at(1, 0), at(1, 0)) },
		"negative":    func() { w.AddWork(0, -1) },
	} {
		if message := panicOf(ask); !strings.HasPrefix(message, "calendar: ") {
			t.Errorf("%s: panic %q", name, message)
		}
	}
}

func panicOf(f func()) (message string) {
	defer func() {
		if err, ok := recover().(error); ok {
			message = err.Error()
		}
	}()
	f()
	return ""
}

// anyWork draws a calendar.
func anyWork(t *rapid.T) *Work {
	shift := rapid.Custom(func(t *rapid.T) Shift {
		open := rapid.IntRange(0, 1439).Draw(t, "open")
		length := rapid.IntRange(1, 1439).Draw(t, "length")
		return Shift{open, (open + length) % 1440}
	})
	var week Week
	for i := range week {
		week[i] = rapid.SliceOfN(shift, 0, 3).Draw(t, "shifts")
	}
	week[rapid.IntRange(0, 6).Draw(t, "workday")] = []Shift{dayShift}
	w, err := NewWork(monday, week, Yearly(time.July, 4), NthWeekday(1, time.Monday, time.September), LastWeekday(time.Monday, time.August))
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// Shows, on any calendar, that AddWork is the first instant by which the work is
// done, and that the other questions agree with it and with one another.
func TestWorkProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWork(t)
		for range 20 {
			a := rapid.Int64Range(0, 3*365*SecondsPerDay).Draw(t, "a")
			work := rapid.Int64Range(1, 60*SecondsPerDay).Draw(t, "work")
			end := w.AddWork(a, work)
			if got := w.Between(a, end); got != work {
				t.Fatalf("AddWork(%d, %d) = %d, but work done is %d", a, work, end, got)
			}
			if w.Between(a, end-1) != work-1 || !w.IsOpen(end-1) {
				t.Fatalf("AddWork(%d, %d) = %d is not the first such instant", a, work, end)
			}
			if half := w.AddWork(w.AddWork(a, work/2), work-work/2); half != end {
				t.Fatalf("in two parts %d is finished at %d, not %d", work, half, end)
			}
			opens, closes := w.NextOpen(a), w.NextClose(a)
			if !w.IsOpen(opens) || w.IsOpen(closes) || opens < a || closes <= opens {
				t.Fatalf("at %d: opens %d, closes %d", a, opens, closes)
			}
			if w.Between(a, opens) != 0 || w.Between(opens, closes) != closes-opens {
				t.Fatalf("at %d: working time around %d and %d is wrong", a, opens, closes)
			}
			if w.IsOpen(a) != (opens == a) || w.Between(end, a) != -work {
				t.Fatalf("at %d: open %v, opens %d", a, w.IsOpen(a), opens)
			}
		}
	})
}

// Shows that counting second by second gives the same working time.
func TestBetweenByCounting(t *testing.T) {
	w := mustWork(t, everyDay(Shift{22 * 60, 6*60 + 7}, Shift{5 * 60, 9 * 60}), OnDate(Date{2026, 7, 1}))
	var open int64
	for sec := range at(5, 0) {
		if got := w.Between(0, sec); got != open {
			t.Fatalf("until second %d: %d, counted %d", sec, got, open)
		}
		if w.IsOpen(sec) {
			open++
		}
	}
}

func BenchmarkAddWork(b *testing.B) {
	w := mustWork(b, weekdays(dayShift))
	b.ReportAllocs()
	var sec int64
	for b.Loop() {
		sec = w.AddWork(sec, 5*hour)
		if sec > at(20*365, 0) {
			sec = 0
		}
	}
}

func BenchmarkDateOf(b *testing.B) {
	var sec int64
	for b.Loop() {
		sec += int64(monday.DateOf(sec).Day) * 977
	}
}

func BenchmarkNewWork(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		mustWork(b, weekdays(dayShift), Yearly(time.July, 4), LastWeekday(time.Monday, time.May))
	}
}

// A later clock asks the same calendar: every answer is the same instant.
func TestLaterIsTheSameCalendar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := anyWork(t)
		days := rapid.IntRange(0, 3*365).Draw(t, "days")
		later := w.Later(days)
		shift := int64(days) * SecondsPerDay
		sec := rapid.Int64Range(0, 3*365*SecondsPerDay).Draw(t, "second")
		work := rapid.Int64Range(0, 30*SecondsPerDay).Draw(t, "work")
		if got, want := later.IsOpen(sec), w.IsOpen(sec+shift); got != want {
			t.Errorf("open: %v, not %v", got, want)
		}
		for what, pair := range map[string][2]int64{
			"next open":  {later.NextOpen(sec) + shift, w.NextOpen(sec + shift)},
			"next close": {later.NextClose(sec) + shift, w.NextClose(sec + shift)},
			"end":        {later.AddWork(sec, work) + shift, w.AddWork(sec+shift, work)},
			"between":    {later.Between(sec, sec+work), w.Between(sec+shift, sec+shift+work)},
		} {
			if pair[0] != pair[1] {
				t.Errorf("%s: %d, not %d", what, pair[0], pair[1])
			}
		}
	})
}
