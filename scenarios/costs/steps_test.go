package costs

import (
	"testing"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// When each step takes effect, in years from 1 July 2027: dates and triggers, on
// either side of the start, of the file and of the case; lead times by the calendar.
func TestSteps(t *testing.T) {
	triggered := func(name string, lead int) facilityfile.Step {
		s := facilityfile.Step{}
		s.Name, s.Trigger.Held, s.Lead = name, 0.8, calendar.Span{Months: lead}
		return s
	}
	r := smallResult()
	p := &facilityfile.Planning{Committed: []facilityfile.Step{
		step("old screen", 2025, time.July), triggered("pad", 6), triggered("store", 0),
	}}
	r.Case.Steps = []facilityfile.Step{
		step("vessel", 2028, time.July), triggered("shift", 12), triggered("shift", 24), triggered("never", 0),
		step("of the past", 2020, time.July),
	}
	date := func(year int, month time.Month) calendar.Date { return calendar.Date{Year: year, Month: month, Day: 1} }
	r.Record.Triggered = []plant.Triggered{
		{Change: "shift", Decided: date(2027, time.July)},
		{Change: "store", Decided: date(2027, time.January)}, // in the warm-up
		{Change: "shift", Decided: date(2029, time.January)},
		{Change: "pad", Decided: date(2028, time.July)},
	}
	half := 184.0 / 365 // July to January
	want := []Taken{
		{Step: p.Committed[0], InService: -2, Committed: true},
		{Step: p.Committed[1], InService: 1 + half, Lead: half, Committed: true, Place: 1},
		{Step: p.Committed[2], InService: 0, Committed: true, Place: 2},
		{Step: r.Case.Steps[0], InService: 1},
		{Step: r.Case.Steps[1], InService: 1, Lead: 1, Place: 1},
		{Step: r.Case.Steps[2], InService: 1 + half + 2, Lead: 2, Place: 2},
		{Step: r.Case.Steps[4], InService: 0, Place: 4},
	}
	got := Steps(p, r)
	if len(got) != len(want) {
		t.Fatalf("%d steps taken, want %d: %+v", len(got), len(want), got)
	}
	for i, w := range want {
		if g := got[i]; g.Step.Name != w.Step.Name || g.Committed != w.Committed || g.Place != w.Place || !near(g.InService, w.InService) || !near(g.Lead, w.Lead) {
			t.Errorf("step %d: %s at %g, ordered %g before (committed: %v, place %d), want %s at %g, %g (%v, %d)",
				i, g.Step.Name, g.InService, g.Lead, g.Committed, g.Place, w.Step.Name, w.InService, w.Lead, w.Committed, w.Place)
		}
	}
	if len(r.Record.Triggered) != 4 || r.Record.Triggered[0].Change != "shift" {
		t.Error("the record was changed")
	}
}

// A record of a real run has the paths that are charged, and what they carry is
// what its months say.
func TestPathsOfARealRun(t *testing.T) {
	r := simulated(t)
	uses := uses(facilityfile.Target{}, r)
	tipped, booked := 0.0, 0.0
	for _, u := range uses {
		tipped += u.Tipping
	}
	for i := range r.Record.Months {
		m := &r.Record.Months[i]
		booked += m.Holding.DivertedWet + m.Screen.RejectsWet
	}
	if booked <= 0 || !near(tipped/booked, 1) {
		t.Errorf("%g kg wet are tipped, %g kg diverted and rejected", tipped, booked)
	}
}
