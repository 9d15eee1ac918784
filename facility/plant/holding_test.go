package plant

import (
	"testing"
	"time"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// The most cake held in each month. 100 kg dry a day run in from 1 January 2027, into
// a holding of 8,000 kg, and there is no vessel:
//
//	January 31 · 100 = 3,100, February 59 · 100 = 5,900, full in March
//	8,000 kg of room more on 15 April: full before, 8,000 + 16 · 100 = 9,600 at the end
//	May 9,600 + 3,100 = 12,700 of 16,000
//	vessels on 2 June, and a batch of 400 kg each midnight from then on, which takes a
//	whole day: 12,800 at that midnight, and 300 less each day
//	July begins with 12,800 − 29 · 300 = 4,100, before the batch of its first midnight
func TestCaseMostHeld(t *testing.T) {
	m := paper()
	m.Feed.Base = 100
	m.Vessels.Installed = 0
	m.Mixer.BatchTime = 24 * sim.Hour
	m.Changes = []Change{
		{Name: "room", Date: calendar.Date{Year: 2027, Month: time.April, Day: 15}, Holding: 8000},
		{Name: "vessels", Date: calendar.Date{Year: 2027, Month: time.June, Day: 2}, Vessels: 200},
	}
	rec, _ := follow(t, m, caseKey)
	for i, want := range []struct{ peak, room float64 }{
		{3100, 8000}, {5900, 8000}, {8000, 8000}, {9600, 9600}, {12700, 16000}, {12800, 16000}, {4100, 16000},
	} {
		month := &rec.Months[i]
		same(t, month.Month.String()+": most held", month.Holding.Peak, want.peak)
		same(t, month.Month.String()+": share of the room", month.Holding.Fullest, want.peak/want.room)
	}
}
