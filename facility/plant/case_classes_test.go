package plant

import (
	"math"
	"testing"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// twoClasses makes the plant of the cases one of two classes of vessels, which are begun
// when the cake of a whole load is held.
//
//	large   25 m3 as in the other cases, but it may carry 12,000 kg: a load is of 1,600 kg
//	        dry of cake in four batches, as 15,000 kg would be of 2,000
//	small   10 m3, carried by nobody: 4 m3 of cake, 800 kg dry, in two batches; 6,000 kg
func twoClasses(large, small int) Model {
	m := paper()
	m.Holding.StartWith = 1
	m.Vessels.Payload = math.Inf(1)
	m.Vessels.Installed = large + small
	m.Vessels.Classes = []VesselClass{
		{Name: "large", Installed: large, Payload: 12000},
		{Name: "small", Installed: small, Volume: 10},
	}
	return m
}

const (
	largeCake, largeWet = 1600.0, 12000.0
	smallCake, smallWet = 800.0, 6000.0
)

// Two classes, vessel-limited. One large vessel, whose loads stay 216 h and which is
// turned round in 48 h, and two small ones with 240 and 24 h: 264 h all of them.
//
//	small 1   begun when 800 kg have run in, at 8 h, with batches at 8 and 8.5 h: full at 9
//	small 2   begun at 16 h, full at 17
//	large     begun when 1,600 kg are held again, at 32 h, with batches at 32, 32.5, 33 and
//	          33.5 h: full at 34
//	then      a vessel is back 264 h after it was full, finds its cake held, and is full an
//	          hour, or two, after that: small 1 begun at 273 and 538 h, small 2 at 281 and
//	          546, the large one at 298 and 564 h
//	unloaded  small 240 h after they were full, at 249, 257, 514 and 522 h; large 216 h
//	          after, at 250 and 516 h
//
// The holding, empty but for 100 t − 3,200 kg from 33.5 h on, is full at 112 h, and again
// some hours after each load: what is not mixed or held in the end is diverted.
//
//	mixed      6 small loads and 3 large ones: 4,800 + 4,800 kg
//	diverted   74,400 − 9,600 − 8,000 = 56,800 kg
//	in use     small 1 from 8 h to the end of January and small 2 from 16 h: 736 + 728 h;
//	           the large one from 32 h: 712 h
func TestCaseTwoClasses(t *testing.T) {
	m := twoClasses(1, 2)
	long := 48 * sim.Hour
	m.Vessels.Classes[0].Residence, m.Vessels.Classes[0].Turnaround = 9*sim.Day, &long
	rec, d := follow(t, m, caseKey)
	begins := d.loadsBegun()
	begins.at(t, "first batch of load", 8, 16, 32, 273, 281, 298, 538, 546, 564)
	d.on("compost unloaded").at(t, "load unloaded", 249, 250, 257, 514, 516, 522)
	d.on("cake mixed").load(3).at(t, "batch of the large load", every(32, 0.5, 4)...)
	jan := rec.Months[0]
	large, small := jan.Classes[0], jan.Classes[1]
	same(t, "large loads", large.Loads, 3)
	same(t, "small loads", small.Loads, 6)
	same(t, "cake in large loads", large.CakeDry, 3*largeCake)
	same(t, "cake in small loads", small.CakeDry, 6*smallCake)
	same(t, "mix in large loads", large.Wet, 3*largeWet)
	same(t, "mix in small loads", small.Wet, 6*smallWet)
	near(t, "large in use", large.Mean, 712/january, 1e-5)
	near(t, "small in use", small.Mean, (736+728)/january, 1e-5)
	same(t, "large installed", large.Installed, 1)
	same(t, "small installed", small.Installed, 2)
	near(t, "diverted", jan.Holding.DivertedDry, 56800, 0.1)
	mostly(t, rec, 1, NoVessel)
}

// Which vessel is next. Both classes have an empty vessel; the mixer works from 8 to 16 h
// on weekdays, of which Friday, 1 January is one.
//
//	Friday 8 h    800 kg are held, which fill a small vessel and not the large one: small
//	Friday 16 h   the other 800 kg have come as people leave: nothing is begun
//	Monday 80 h   7,200 kg are held, which fill either: large, then the other small one, at
//	              82 h when the large one has its four batches
func TestCaseNextClass(t *testing.T) {
	m := twoClasses(1, 2)
	work, err := calendar.NewWork(calendar.Clock{Start: m.Begin()}, weekdays(calendar.Shift{Open: 8 * 60, Close: 16 * 60}))
	if err != nil {
		t.Fatal(err)
	}
	m.Mixer.Hours = work
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 8, 80, 82)
	for load, want := range map[uint64]float64{1: smallWet, 2: largeWet, 3: smallWet} {
		same(t, "mix in a load", d.on("mix loaded").load(load).wet(), want)
	}
}

// Early release of two classes: the load whose shortest stay is over first goes first,
// though it is not the oldest. Loads begin with their first batch. The large one stays 192 h at least, the
// small one 120 h, and both are turned round in 12 h.
//
//	large    begun at 4 h, batches at 4, 8, 12 and 16 h, full at 16.5: may go at 208.5 h
//	small    begun at 20 h, batches at 20 and 24 h, full at 24.5: may go at 144.5 h
//	144.5 h  a vessel is missing: the small one is unloaded, back at 156.5, full at 157.5
//	208.5 h  the large one, back at 220.5, full at 222.5
//	277.5 h  the small one, 120 h after it was full
func TestCaseEarlyReleaseOfClasses(t *testing.T) {
	m := twoClasses(1, 1)
	m.Holding.StartWith = 0
	m.Vessels.Early, m.Vessels.Turnaround = true, 12*sim.Hour
	m.Vessels.Classes[0].Minimum = 8 * sim.Day
	_, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 4, 20, 156.5, 220.5)
	d.on("compost unloaded").at(t, "load unloaded", 144.5, 208.5, 277.5)
}

// A vessel of a named class comes by a change: a second small one, there at 216 h and
// loaded at once, with the 800 kg dry of its class.
func TestCaseClassAdded(t *testing.T) {
	m := twoClasses(1, 1)
	m.Changes = []Change{{Name: "second small", Date: calendar.Date{Year: 2027, Month: 1, Day: 10}, Vessels: 1, Class: 1}}
	rec, d := follow(t, m, caseKey)
	d.loadsBegun().at(t, "first batch of load", 8, 24, 216)
	same(t, "mix in the third load", d.on("mix loaded").load(3).wet(), smallWet)
	jan := rec.Months[0]
	same(t, "large installed", jan.Classes[0].Installed, 1)
	same(t, "small installed", jan.Classes[1].Installed, 2)
	same(t, "installed", jan.Vessels.Installed, 3)
	if m.Vessels.Classes[1].Installed != 1 {
		t.Error("the run changed the model that it was given")
	}
}
