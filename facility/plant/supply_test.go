package plant

import (
	"testing"

	"loamcast/sim/calendar"
)

// A pulse is on for exactly its days: the first is that of its date, the last one
// day less than its length later.
func TestPulseLastsItsDays(t *testing.T) {
	from := calendar.Date{Year: 2028, Month: 2, Day: 27}
	f := Feed{Pulses: []Pulse{{From: from, Days: 3, PerDay: 80}, {From: from.AddDays(2), Days: 1, PerDay: 5}}}
	for day, want := range map[int]float64{-1: 0, 0: 80, 1: 80, 2: 85, 3: 0, 4: 0} {
		if got := f.pulse(from.AddDays(day)); got != want {
			t.Errorf("%g kg more on day %d, want %g", got, day, want)
		}
	}
}
