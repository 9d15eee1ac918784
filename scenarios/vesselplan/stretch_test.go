package vesselplan

import (
	"reflect"
	"testing"
	"time"

	"pgregory.net/rapid"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Wherever a year is missed, the first one is found, whatever comes after it, with
// any guess, as long as production and plant change for the better only where a
// stretch begins. No year is judged that need not be, nor twice.
func TestStretchesFindTheFirstMissed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		years := rapid.IntRange(1, 30).Draw(t, "years")
		relief := make([]bool, years)
		missedIn := make([]bool, years)
		for y := range years {
			relief[y] = y > 0 && rapid.IntRange(0, 5).Draw(t, "relief") == 0
			worse := rapid.IntRange(0, 7).Draw(t, "gets too much") == 0
			missedIn[y] = worse || y > 0 && !relief[y] && missedIn[y-1]
		}
		first := 0
		for first < years && !missedIn[first] {
			first++
		}
		known := rapid.IntRange(-1, first-1).Draw(t, "known to be kept")
		until := years // a year known to be missed, or the end
		if first < years && rapid.Bool().Draw(t, "a missed year is known") {
			until = first + rapid.IntRange(0, years-1-first).Draw(t, "later")
			missedIn[until] = true
		}
		judged := map[int]bool{}
		s := stretches{
			relief: relief,
			judge: func(year int) (stats.Verdict, error) {
				if judged[year] || year <= known || year >= until {
					t.Fatalf("year %d is judged for nothing", year)
				}
				judged[year] = true
				if missedIn[year] {
					return stats.Above, nil
				}
				return stats.Below, nil
			},
			scout: func(year int) (bool, error) { return missedIn[year], nil },
		}
		kept, missed, err := s.boundary(known, until, rapid.IntRange(-1, years+2).Draw(t, "guess"))
		if err != nil || kept != first-1 || missed != first {
			t.Fatalf("kept through %d and missed from %d (%v); the first missed is %d", kept, missed, err, first)
		}
	})
}

// A year too near to the target to tell ends what is surely kept, and the search
// goes on to the first year that is surely missed, in a later stretch.
func TestStretchesWithAnOpenYear(t *testing.T) {
	verdicts := []stats.Verdict{stats.Below, stats.Undecided, stats.Below, stats.Below, stats.Above}
	s := stretches{
		relief: []bool{false, false, true, false, false},
		judge:  func(year int) (stats.Verdict, error) { return verdicts[year], nil },
		scout:  func(year int) (bool, error) { return verdicts[year] != stats.Below, nil },
	}
	kept, missed, err := s.boundary(-1, 5, -1)
	if err != nil || kept != 0 || missed != 4 {
		t.Errorf("kept through %d and missed from %d (%v), want 0 and 4", kept, missed, err)
	}
}

// Stretches begin with a change that is in force from a year's first day on; with
// the year and the next for one of mid-year, counted from the end of its lead time;
// the same for the end of a pulse; and wherever production falls. Changes before
// the start and after the end begin none.
func TestReliefs(t *testing.T) {
	date := func(year int, month time.Month, day int) calendar.Date {
		return calendar.Date{Year: year, Month: month, Day: day}
	}
	base := func() *plant.Plant {
		p := &plant.Plant{}
		p.Start, p.Years = date(2027, time.July, 1), 6
		p.Feed.Growth = plant.Linear{Rate: 0.02}
		return p
	}
	change := func(d calendar.Date, lead int) func(*plant.Plant) {
		return func(p *plant.Plant) {
			p.Changes = append(p.Changes, plant.Change{Date: d, Lead: calendar.Span{Days: lead}, Vessels: 1})
		}
	}
	const y, n = true, false
	for _, c := range []struct {
		name      string
		with      func(*plant.Plant)
		triggered bool
		want      []bool
	}{
		{"steady growth", func(*plant.Plant) {}, false, []bool{n, n, n, n, n, n}},
		{"change on a year's first day", change(date(2030, time.July, 1), 0), false, []bool{n, n, n, y, n, n}},
		{"change within a year", change(date(2030, time.August, 1), 0), false, []bool{n, n, n, y, y, n}},
		{"lead time", change(date(2029, time.July, 1), 400), false, []bool{n, n, n, y, y, n}},
		{"before the start", change(date(2026, time.August, 1), 30), false, []bool{n, n, n, n, n, n}},
		{"after the end", change(date(2033, time.July, 1), 0), false, []bool{n, n, n, n, n, n}},
		{"pulse", func(p *plant.Plant) {
			p.Feed.Pulses = []plant.Pulse{{From: date(2028, time.October, 1), Days: 20}}
		}, false, []bool{n, y, y, n, n, n}},
		{"production falls", func(p *plant.Plant) {
			p.Feed.Growth = plant.Steps{{At: 1, Value: 1.2}, {At: 3.25, Value: 1.1}}
		}, false, []bool{n, n, n, y, y, n}},
		{"changes that wait for a sign", func(*plant.Plant) {}, true, []bool{n, y, y, y, y, y}},
	} {
		p := base()
		c.with(p)
		if got := reliefs(p, c.triggered); !reflect.DeepEqual(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}
