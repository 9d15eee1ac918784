package plant

import (
	"testing"

	"loamcast/sim/calendar"
)

// dayShift is Monday to Friday, 07:00 to 15:30.
func dayShift(t testing.TB, m *Model) *calendar.Work {
	w, err := calendar.NewWork(calendar.Clock{Start: m.Begin()}, weekdays(calendar.Shift{Open: 7 * 60, Close: 15*60 + 30}))
	if err != nil {
		t.Fatal(err)
	}
	return w
}
