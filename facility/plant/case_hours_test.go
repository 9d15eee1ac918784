package plant

import (
	"math"
	"testing"

	"loamcast/sim/calendar"
)

// officeHours is Monday to Friday, 08:00 to 16:00.
func officeHours(t *testing.T, m *Model, holidays ...calendar.Holiday) *calendar.Work {
	t.Helper()
	hours, err := calendar.NewWork(calendar.Clock{Start: m.Begin()},
		weekdays(calendar.Shift{Open: 8 * 60, Close: 16 * 60}), holidays...)
	if err != nil {
		t.Fatal(err)
	}
	return hours
}

// perDay counts the batches begun on each of the first days.
func (d diary) perDay(days int) []int {
	n := make([]int, days)
	for _, mv := range d.on("cake mixed") {
		if day := int(math.Floor(mv.At.Days())); day < days {
			n[day]++
		}
	}
	return n
}

func sameDays(t *testing.T, got, want []int) {
	t.Helper()
	for i := range want {
		if got[i] != want[i] {
			t.Errorf("%d January: %d batches, on paper %d", i+1, got[i], want[i])
		}
	}
}

// Weekend-limited. The mixer works from Monday to Friday, 08:00 to 16:00. A batch
// of half an hour lowers what is held by 400 − 50 = 350 kg. The holding takes
// 4,000 kg.
//
//	Friday       800 kg at 08:00. Batches at 08:00 and 08:30 leave 50 kg; 400 kg
//	             are there at 12:00, and again at 16:00, when it is closed
//	the weekend  400 kg at 16:00; 4,000 kg 36 h later, on Sunday at 04:00; diverted
//	             until Monday at 08:00: 28 h, 2,800 kg
//	Monday       4,000 − 350·k ≥ 400 for k = 0 … 10: 11 batches from 08:00 to 13:00,
//	             which leave 100 kg; 400 kg at 16:00, closed
//	Tuesday      400 + 1,600 = 2,000 kg at 08:00: k = 0 … 4, 5 batches from 08:00 to
//	             10:00, which leave 200 kg; 400 kg at 12:00: a sixth; 400 kg at 16:00
//	             to Friday likewise, so every weekend is as the first
//
//	batches in January   3, and four weeks of 11 + 4·6 = 35: 143, or 57,200 kg
//	diverted             four weekends, and 20 h of the last: 11,200 + 2,000 kg
//	held at the end      4,000 kg, and all are 74,400 kg
func TestCaseWeekendLimited(t *testing.T) {
	m := paper()
	m.Holding.Capacity = 4000
	m.Mixer.Hours = officeHours(t, &m)
	rec, d := follow(t, m, caseKey)
	sameDays(t, d.perDay(15), []int{3, 0, 0, 11, 6, 6, 6, 6, 0, 0, 11, 6, 6, 6, 6})
	batches := d.on("cake mixed")
	batches.at(t, "batch on Friday", 8, 8.5, 12)
	batches.since(72).at(t, "batch on Monday", every(80, 0.5, 11)...)
	batches.since(96).at(t, "batch on Tuesday", 104, 104.5, 105, 105.5, 106, 108)
	diverted := d.on("cake diverted")
	diverted.before(52).count(t, "diverted before Sunday, 04:00", 0)
	same(t, "diverted by Monday, 08:00", diverted.before(80).dry(), 2800)

	jan := rec.Months[0]
	same(t, "batches", jan.Mixing.Batches, 143)
	same(t, "mixed", jan.Mixing.CakeDry, 143*batchCake)
	same(t, "diverted", jan.Holding.DivertedDry, 13200)
	mostly(t, rec, 1, OffShift)
}

// Holiday. As before, with Wednesday, 6 January, off.
//
//	Tuesday     400 kg are held at 16:00
//	Wednesday   no batch is begun
//	Thursday    full 36 h after Tuesday's end, at 04:00; 400 kg are diverted until
//	            08:00; then as after a weekend, 11 batches from 08:00 on
//	Friday      6 batches, as ever
//
//	batches in January   143 − 6 − 6 + 11 = 142, or 56,800 kg
//	diverted             13,200 + 400 = 13,600 kg
func TestCaseHoliday(t *testing.T) {
	m := paper()
	m.Holding.Capacity = 4000
	m.Mixer.Hours = officeHours(t, &m, calendar.OnDate(calendar.Date{Year: 2027, Month: 1, Day: 6}))
	rec, d := follow(t, m, caseKey)
	sameDays(t, d.perDay(11), []int{3, 0, 0, 11, 6, 0, 11, 6, 0, 0, 11})
	const thursday = 6 * 24.0 // h
	d.on("cake mixed").since(thursday-24).at(t, "batch after the holiday", every(thursday+8, 0.5, 11)...)
	diverted := d.on("cake diverted").since(thursday - 24)
	diverted.before(thursday+4).count(t, "diverted before Thursday, 04:00", 0)
	same(t, "diverted by Thursday, 08:00", diverted.before(thursday+8).dry(), 400)

	jan := rec.Months[0]
	same(t, "mixed", jan.Mixing.CakeDry, 142*batchCake)
	same(t, "diverted", jan.Holding.DivertedDry, 13600)
	mostly(t, rec, 1, OffShift)
}

// Where the mixer could work day and night but the only operator keeps office
// hours, batches are those of the weekend-limited plant.
func TestCrewKeepsTheHoursOfTheYard(t *testing.T) {
	m := paper()
	m.Holding.Capacity = 4000
	m.Vessels.Hours = officeHours(t, &m)
	m.Yard.Operators = Crew{Count: 1}
	rec, d := follow(t, m, caseKey)
	sameDays(t, d.perDay(15), []int{3, 0, 0, 11, 6, 6, 6, 6, 0, 0, 11, 6, 6, 6, 6})
	same(t, "batches", rec.Months[0].Mixing.Batches, 143)
	same(t, "diverted", rec.Months[0].Holding.DivertedDry, 13200)
	mostly(t, rec, 1, OffShift)
}
