package vesselplan_test

import (
	"bytes"
	"context"
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/document"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/render/rendertest"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
)

func handFile(t *testing.T) *facilityfile.File {
	t.Helper()
	f, err := facilityfile.Open("testdata/hand.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func plan(t *testing.T, f *facilityfile.File, o vesselplan.Options) *vesselplan.Answer {
	t.Helper()
	return planned(t, f, 0, o)
}

func planned(t *testing.T, f *facilityfile.File, workers int, o vesselplan.Options) *vesselplan.Answer {
	t.Helper()
	s, err := study.New(f, workers)
	if err != nil {
		t.Fatal(err)
	}
	a, err := vesselplan.Ask(context.Background(), s, answer.Setup{}, o)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// found is what a number of vessels lasts for, by hand.
type found struct{ vessels, kept, missed int }

func sameYears(t *testing.T, g *vesselplan.Growth, want []found) {
	t.Helper()
	if len(g.Rows) != len(want) {
		t.Fatalf("%d rows, by hand %d", len(g.Rows), len(want))
	}
	for i, w := range want {
		if r := &g.Rows[i]; r.Vessels != w.vessels || r.LastKept != w.kept || r.FirstMissed != w.missed {
			t.Errorf("%d vessels kept through year %d and missed from %d; by hand %d: %d, %d",
				r.Vessels, r.LastKept, r.FirstMissed, w.vessels, w.kept, w.missed)
		}
	}
}

// The years found by hand, with the noise off.
//
// Of a mix with 2.5 volumes of chips 58.0 % is cake, by weight: a payload of
// 17,251 kg holds 10,000 kg of cake, 2,000 kg dry. It takes a vessel for 18 + 2
// days. A vessel carries 100 kg dry per day, and no other stage is near its limit.
//
// Production is 600 kg/day and rises by 40 each year, in a straight line. Of year y
// the mean is 620 + 40y. With 1 % allowed to be diverted:
//
//	 8 vessels, 800 kg/day: year 4 goes from 760 to 800, and none is diverted;
//	    year 5 has a mean of 820, and 20 of it, 2.4 %, are too many.
//	 9 vessels, 900 kg/day: year 7 goes from 880 to 920, so that half of it has 10
//	    too many in the mean, 0.6 %; year 8 has a mean of 940, 4.3 % too many.
//	10 vessels, 1,000 kg/day: year 9 ends at 1,000; year 10 has 20 of 1,020 too many,
//	    2.0 %.
//	11 vessels, 1,100 kg/day: year 11 goes from 1,040 to 1,080: kept to the end.
//
// In year 5 the rise above the 800 of 8 vessels has brought 7,300 t² kg after a part
// t of the year: enough to begin to miss it at t = 0.33. The ramps by which the plant
// is tried are flatter, and bring too much from the first day of a year of 820 on, so
// that it counts as missed from its beginning: a quarter early, on the safe side.
func TestYearsFoundByHand(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	f := handFile(t)
	a := plan(t, f, vesselplan.Options{})
	g := &a.Growths[0]
	sameYears(t, g, []found{{8, 4, 5}, {9, 7, 8}, {10, 9, 10}, {11, 11, 12}})
	first := g.Rows[0]
	if want := (calendar.Date{Year: 2032, Month: 1, Day: 1}); first.NeededBy != want {
		t.Errorf("needed by %v, by hand %v", first.NeededBy, want)
	}
	if first.Short/4 != 5 || first.ShortTo/4 != 5 {
		t.Errorf("short between quarters %d and %d; there is no doubt about year 5", first.Short, first.ShortTo)
	}
	if got := first.StaticCakePerLoad; math.Abs(got-2000) > 1 {
		t.Errorf("%g kg of dry cake in a load, by hand 2000", got)
	}
	if due, more := a.Ordered(g, &first); !more || due.AtOnce || due.Day.DaysUntil(first.NeededBy) != 400 {
		t.Errorf("ordered by %+v, %v; needed by %v", due, more, first.NeededBy)
	}
	if due, _ := a.Ordered(&a.All, &a.All.Rows[0]); due.String() != document.Quarter(a.Orders[a.Latest()].Quarter) {
		t.Errorf("ordered by the end of %v, and the latest order in time is %v", due, a.Orders[a.Latest()].Quarter)
	}
	// The mean of the last twelve months is 620 + 40·(m − 11)/12 kg/day at the end of
	// month m, counted from 0. That it is above the sign is known on the first day of
	// the month after the first in which it is, and a whole run in which the vessels wait
	// for the sign decides on that day.
	if s := a.Sign; s == nil {
		t.Error("there is no sign")
	} else {
		month := int(math.Floor(11+(s.Production-620)*12/40)) + 1
		seen := f.Model.Start.AddMonths(month + 1)
		if s.From != seen || s.To != seen || s.Never != 0 {
			t.Errorf("a sign at %.1f kg/day is seen between %v and %v, by hand on %v", s.Production, s.From, s.To, seen)
		}
		if decided := decidedOn(t, f, s.Production); decided != seen {
			t.Errorf("a whole run sees the sign at %.1f kg/day on %v, by hand on %v", s.Production, decided, seen)
		}
		if there := a.Lead.After(seen); a.All.Rows[0].NeededBy.AddMonths(3).Before(there) || there.AddMonths(6).Before(a.All.Rows[0].NeededBy) {
			t.Errorf("vessels ordered on the sign are there on %v, needed by %v", there, a.All.Rows[0].NeededBy)
		}
		// With the sign's production 8 vessels of 800 kg/day are in use for so much of the
		// time, but for the days in which a load comes together; the load of 2,000 kg is
		// the most that is held, of 2,500.
		if most := s.Production / 800; math.Abs(s.InUse-most) > 0.05 || math.Abs(s.Held-2000) > 20 || math.Abs(s.Full-0.8) > 0.01 {
			t.Errorf("%.3f of the vessels in use, by hand %.3f; %.0f kg held, %.3f of the holding, by hand 2000 and 0.8", s.InUse, most, s.Held, s.Full)
		}
	}
	// The handbook's estimate is the same arithmetic: short in the middle of the
	// year as soon as 620 + 40y is above 800 and 1,000.
	for i, year := range map[int]int{0: 5, 2: 10} {
		if got := g.Rows[i].StaticAverage; got != year {
			t.Errorf("handbook: %d vessels short from year %d, by hand %d", g.Rows[i].Vessels, got, year)
		}
	}
	if !g.VesselsHelp() {
		t.Error("more vessels do not help")
	}
	if whole := len(g.Rows) * a.Runs * a.Horizon; a.Simulated*2 > whole {
		t.Errorf("%d years were simulated, where each of each row would be %d", a.Simulated, whole)
	}
}

// A vessel that the file adds when it is too late does not hide the year that was
// missed. By hand, with the plant above and a ninth vessel from the start of year 6
// on: year 5 is missed as before, though year 6 brings 860 in the mean of the 900
// that are carried from then on.
func TestRescueHidesNoMissedYear(t *testing.T) {
	f := handFile(t)
	f.Model.Changes = []plant.Change{{Name: "ninth vessel", Date: f.Model.Start.AddYears(6), Vessels: 1}}
	a := plan(t, f, vesselplan.Options{UpTo: 9})
	sameYears(t, &a.Growths[0], []found{{8, 4, 5}, {9, 9, 10}})
}

// A holding that takes all hides what vessels are short of, and the target finds it
// by how long cake waits. By hand, with the plant above and at most 6 days:
//
// What a year brings above what vessels carry piles up: from a rate of zero at its
// start to 40 kg/day at its end, 7,300 t² kg after a part t of the year, 2,433 kg
// in the mean; from 40 to 80, after such a year, 7,300 + 14,600 t + 7,300 t², or
// 17,033 kg. To this, or from this, come at most the 2,000 kg of the load that is
// being collected. A mean of m kg held, with M kg coming in a day, is a wait of
// m / M days.
//
//	 8 vessels: year 5 has 433 to 4,433 of 820, at most 5.4 days; year 6 has
//	    15,033 or more of 860, 17 days
//	 9 vessels: half of year 7 brings too much, 304 kg in the mean, at most 2.6
//	    days; year 8 has 1,825 + 7,300 t + 7,300 t², or 7,908, less 2,000 of 940,
//	    6.3 days or more
//	10 vessels: year 10 has at most 4,433 of 1,020, 4.3 days; year 11 has 15,033 or
//	    more of 1,060, 14 days
//	11 vessels: nothing is short
func TestHoldingHidesNoShortage(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	f := handFile(t)
	f.Model.Holding.Capacity = 1e6
	f.Planning.Target.DelayLimit = 6
	g := plan(t, f, vesselplan.Options{}).Growths[0]
	sameYears(t, &g, []found{{8, 5, 6}, {9, 7, 8}, {10, 10, 11}, {11, 11, 12}})
	for _, r := range g.Rows[:3] {
		if r.Limit.Waits != plant.NoVessel {
			t.Errorf("%d vessels: what is short is %v", r.Vessels, r.Limit)
		}
	}
}

// decidedOn returns the day on which a whole run orders vessels that wait for a
// production.
func decidedOn(t *testing.T, f *facilityfile.File, production float64) calendar.Date {
	t.Helper()
	s, err := study.New(f, 0)
	if err != nil {
		t.Fatal(err)
	}
	c := study.Case{Steps: []facilityfile.Step{{Change: plant.Change{Name: "more", Vessels: 1, Trigger: plant.Trigger{Production: production}}}}}
	result, err := s.Simulate(t.Context(), study.Run{Case: &c})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(result.Record.Triggered); n != 1 {
		t.Fatalf("%d decisions", n)
	}
	return result.Record.Triggered[0].Decided
}

// An order that should have been placed before the start is late.
func TestLateOrder(t *testing.T) {
	f := handFile(t)
	f.Planning.VesselLead = calendar.Span{Months: 8 * 12}
	a := plan(t, f, vesselplan.Options{UpTo: 8})
	if due, more := a.Ordered(&a.Growths[0], &a.Growths[0].Rows[0]); !more || !due.AtOnce || !due.Day.Before(f.Model.Start) {
		t.Errorf("ordered by %+v is not late", due)
	}
}

// The order is due months of the calendar before the need, which is on 1 January
// 2032: 18 months are from 1 July 2030, and 547.875 days would be from 2 July.
func TestOrderByTheCalendar(t *testing.T) {
	f := handFile(t)
	f.Planning.VesselLead = calendar.Span{Months: 18}
	first := plan(t, f, vesselplan.Options{UpTo: 8}).Growths[0].Rows[0]
	if needed, order := first.NeededBy.String(), first.OrderBy.String(); needed != "2032-01-01" || order != "2030-07-01" {
		t.Errorf("needed by %s, ordered by %s", needed, order)
	}
}

// Where the curing pad is short, vessels do not help, and the answer says so.
func TestSomethingElseIsShort(t *testing.T) {
	f := handFile(t)
	f.Model.Curing.Capacity = 200
	g := plan(t, f, vesselplan.Options{UpTo: 9}).Growths[0]
	if g.VesselsHelp() {
		t.Errorf("more vessels help: %+v", g.Rows)
	}
	if got := g.Rows[1].Limit.Waits; got != plant.NoCuringSpace {
		t.Errorf("what is short is %v", got)
	}
}

// The answer does not depend on the number of workers.
func TestWorkersDoNotMatter(t *testing.T) {
	f := handFile(t)
	f.Model.Feed.Noise.CV = 0.2
	one, two := planned(t, f, 1, vesselplan.Options{UpTo: 9}), planned(t, f, 2, vesselplan.Options{UpTo: 9})
	if a, b := rendertest.JSON(t, one.Document(), units.SI), rendertest.JSON(t, two.Document(), units.SI); !bytes.Equal(a, b) {
		t.Errorf("1 worker: %s\n2 workers: %s", a, b)
	}
}

// No more vessels are tried than there is room for, where the file says so; where
// it does not, a few more than there are; and as many as are asked for in any case.
// The plant is that of the years found by hand, in which 9 vessels are too few.
func TestRoomForVessels(t *testing.T) {
	f := handFile(t)
	installed := f.Model.Vessels.Installed
	for _, c := range []struct{ room, asked, most int }{
		{installed + 1, 0, installed + 1},
		{installed + 1, installed, installed},
	} {
		f.Planning.RoomFor = c.room
		rows := plan(t, f, vesselplan.Options{UpTo: c.asked, Runs: capability.Fewest}).Growths[0].Rows
		if last := rows[len(rows)-1].Vessels; last != c.most {
			t.Errorf("room for %d, asked for %d: tried up to %d vessels, want %d", c.room, c.asked, last, c.most)
		}
	}
}

// A sign leaves the lead time through whatever the file changes on dates. By hand, with
// the plant above, 7 vessels and 3 more from the start of year 5 on, 2032: 700 kg/day
// are too few for year 3, 2030, which brings 740 in the mean, or 40, 5.4 %, too many;
// and 1,000 from 2032 on are enough until 2037. Vessels that take 400 days are there by
// the end of the first quarter of 2030 if the sign is seen on 1 February 2029, when the
// mean of the last twelve months is 620 + 40·13/12, or 663. A sign that knew of nothing
// but the 10 vessels in the end would be about 900.
func TestSignThroughDatedChanges(t *testing.T) {
	f := handFile(t)
	f.Model.Vessels.Installed, f.Planning.RoomFor = 7, 12
	f.Model.Changes = []plant.Change{{Name: "three more", Date: f.Model.Start.AddYears(5), Vessels: 3}}
	a := plan(t, f, vesselplan.Options{Runs: capability.Fewest})
	if a.Calendar != "" || !a.All.Rows[0].NeededBy.Before(f.Model.Start.AddYears(5)) {
		t.Fatalf("needed by %v; years of the calendar because %q", a.All.Rows[0].NeededBy, a.Calendar)
	}
	if s := a.Sign; s == nil || s.Production > 663 || s.Production < 640 {
		t.Errorf("the sign is %+v, by hand at most 663 kg/day", s)
	}
}
