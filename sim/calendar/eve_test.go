package calendar

import "testing"

// A holiday on the eve of the start drops the night shift that would reach into the
// first day, also when the eve is in the year before.
func TestHolidayOnTheEveOfTheStart(t *testing.T) {
	clock := Clock{Start: Date{Year: 2027, Month: 1, Day: 1}}
	night := EveryDay(Shift{Open: 22 * 60, Close: 6 * 60})
	for _, c := range []struct {
		name     string
		holidays []Holiday
		want     bool
	}{{"none", nil, true}, {"on the eve", []Holiday{Yearly(12, 31)}, false}, {"on the first day", []Holiday{Yearly(1, 1)}, true}} {
		w, err := NewWork(clock, night, c.holidays...)
		if err != nil {
			t.Fatal(err)
		}
		if got := w.IsOpen(3 * 3600); got != c.want {
			t.Errorf("holiday %s: open at 03:00 of the first day: %v, want %v", c.name, got, c.want)
		}
	}
}
