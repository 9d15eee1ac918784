package plant

import (
	"testing"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// A vessel out. Four vessels, as in TestCaseVesselLimited, of which one fails on 2
// January for 20 days. At 24 h, midnight, load 2 is not begun yet, so that three vessels
// stand empty: one of them goes, from 24 h to 504 h.
//
//	load 1, 2, 3  begun at 4, 24 and 44 h
//	load 4        would have been begun at 64 h. A vessel is back 288 h after its load was
//	              full, which was at 20.5 h: begun at 308.5 h
//	load 5, 6     likewise at 328.5 and 348.5 h
//	load 7        the failed vessel is back at 504 h, with all its cake held
//	load 8 … 10   loads 4, 5 and 6 were full at 311, 331 and 351 h: begun at 599, 619, 639 h
//
// Nothing in the vessel is lost, as it stands empty.
func TestCaseVesselOut(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 4, 48*sim.Hour
	m.Outages = []Outage{{Date: calendar.Date{Year: 2027, Month: 1, Day: 2}, For: 20 * sim.Day, Vessels: 1}}
	rec, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 24, 44, 308.5, 328.5, 348.5, 504, 599, 619, 639)
	same(t, "vessels in use at most", rec.Months[0].Vessels.Peak, 4)
	d.on("failed loads hauled away").count(t, "loads lost", 0)
	mostly(t, rec, 1, NoVessel)
}

// Vessels out that are in use. One vessel; it fails at 24 h with load 1 in it, which
// composts until 260.5 h; the vessel is turned round in 48 h and would be loaded again at
// 308.5 h. Its ten days begin there: load 2 is begun at 548.5 h. That three were to fail
// is no more than the one that there is.
func TestCaseVesselInUseFails(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 1, 48*sim.Hour
	m.Outages = []Outage{{Date: calendar.Date{Year: 2027, Month: 1, Day: 2}, For: 10 * sim.Day, Vessels: 3}}
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 548.5, 548.5+2.5+288)
	d.on("compost unloaded").at(t, "load unloaded", 260.5)
}

// Maintenance that falls due while a vessel has failed is done when it next stands
// empty: one vessel, serviced for 24 h every 20 days from the run's first day on. It
// stands empty at 308.5 h and is out until 548.5 h; that load is full at 551 h and its
// vessel back at 839 h, when maintenance, due since 480 h, takes until 863 h.
func TestCaseMaintenanceAfterOutage(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 1, 48*sim.Hour
	m.Vessels.Service = Maintenance{Every: 20 * sim.Day, Takes: sim.Day}
	m.Outages = []Outage{{Date: calendar.Date{Year: 2027, Month: 1, Day: 2}, For: 10 * sim.Day, Vessels: 1}}
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 548.5, 863)
}

// A vessel that fails while it is serviced is out from when that is over. One vessel,
// serviced for 24 h when it is next empty after 24 h, which is at 308.5 h; it fails on 14
// January, at 312 h, for two days: from 332.5 to 380.5 h.
func TestCaseServicedVesselFails(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 1, 48*sim.Hour
	m.Vessels.Service = Maintenance{Every: sim.Day, Takes: sim.Day}
	m.Outages = []Outage{{Date: calendar.Date{Year: 2027, Month: 1, Day: 14}, For: 2 * sim.Day, Vessels: 1}}
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 380.5)
}

// A vessel that is out, or that has failed and does not stand empty yet, cannot fail once
// more: of one vessel the second and the third outage take nothing.
func TestCaseOutVesselFailsNoMore(t *testing.T) {
	m := paper()
	m.Vessels.Installed, m.Vessels.Turnaround = 1, 48*sim.Hour
	day := calendar.Date{Year: 2027, Month: 1, Day: 2}
	for _, later := range []int{0, 5, 20} { // out from 308.5 to 548.5 h
		m.Outages = append(m.Outages, Outage{Date: day.AddDays(later), For: 10 * sim.Day, Vessels: 1})
	}
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 548.5)
}

// An outage takes vessels of its class and of no other.
func TestOutageTakesItsClass(t *testing.T) {
	loads := func(class int, fails bool) (of, others float64) {
		m := twoClasses(2, 2)
		if fails {
			m.Outages = []Outage{{Date: m.Start, For: 365 * sim.Day, Vessels: 2, Class: class}}
		}
		rec := mustRun(t, m, caseKey)
		return total(rec, func(m *Month) float64 { return m.Classes[class].Loads }), total(rec, func(m *Month) float64 { return m.Classes[1-class].Loads })
	}
	for class := range 2 {
		of, others := loads(class, true)
		_, before := loads(class, false)
		if of != 0 || !(others > 0 && others >= before) {
			t.Errorf("class %d out: %g loads in it and %g in the other, %g in that before", class, of, others, before)
		}
	}
}

// What is left of an outage that began before the run is still taken; one that is over
// is not; and a plant that is never short of vessels has another for each that fails.
func TestOutageBeforeTheRun(t *testing.T) {
	begun := func(unlimited bool, o Outage) diary {
		m := paper()
		m.Vessels.Installed, m.Vessels.Unlimited, m.Outages = 1, unlimited, []Outage{o}
		_, d := follow(t, m, caseKey)
		return d.loadsBegun()
	}
	before := calendar.Date{Year: 2026, Month: 12, Day: 28} // 96 h
	begun(false, Outage{Date: before, For: 10 * sim.Day, Vessels: 1}).at(t, "first load with 144 h of the outage left", 144)
	begun(false, Outage{Date: before, For: 4 * sim.Day, Vessels: 1}).at(t, "first load after the outage", 4)
	begun(true, Outage{Date: before, For: 10 * sim.Day, Vessels: 1}).at(t, "first loads of an unlimited plant", 4, 24, 44)
}

// What no vessel can do is refused.
func TestOutagesThatAreRefused(t *testing.T) {
	day := calendar.Date{Year: 2027, Month: 1, Day: 2}
	for what, o := range map[string]Outage{
		"no date": {For: sim.Day, Vessels: 1}, "no time": {Date: day, Vessels: 1}, "no vessel": {Date: day, For: sim.Day},
		"no such class": {Date: day, For: sim.Day, Vessels: 1, Class: 1},
	} {
		m := paper()
		m.Outages = []Outage{o}
		if _, err := New(m); err == nil {
			t.Errorf("%s: %+v is taken", what, o)
		}
	}
}
