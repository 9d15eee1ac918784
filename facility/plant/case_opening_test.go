package plant

import (
	"strings"
	"testing"

	"loamcast/facility/material"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// paperLoad is a full load of the cases: 10 m3 of cake and 20 m3 of chips.
func paperLoad(m *Model, age sim.Duration) Begun {
	cake := m.Cake.OfDry(loadCake)
	return Begun{Age: age, Load: cake.Plus(m.Chips.Fresh.OfDry(20 * 250)), Cake: cake, Chips: 20}
}

// paperLot is such a load on the pad, where nothing has become of it.
func paperLot(m *Model, age sim.Duration) Lying {
	b := paperLoad(m, 0)
	return Lying{Age: age, Lot: b.Load, CakeLeft: b.Cake.Fine, CakeDry: loadCake, Chips: b.Chips, Readily: b.Load.Degradable(), Warmth: 40}
}

// A plant whose only vessel was loaded 10 days before the start, for 18 days.
//
//	emptied             18 − 10 = 8 days after the start, at 192 h; the turnaround
//	                    of 24 h is over at 216 h
//	next load           begun then, as cake is held: five batches of half an hour,
//	                    full at 218.5 h and emptied 18 · 24 = 432 h later, at 650.5 h
//	vessel in use       all January, as it is begun anew as soon as it is back
//	residence           18 days of each of two loads
//	what waits          from 4 h on, when there is the cake of a batch, for the vessel
//
// The meter counts the first load from the start on: 192 + 24 h are its first stay.
func TestCaseVesselLoadedBefore(t *testing.T) {
	m := paper()
	m.Vessels.Installed = 1
	m.Vessels.Residence, m.Vessels.Maximum = 18*sim.Day, 20*sim.Day
	m.Opening = &Opening{Fresh: m.Chips.Fresh.OfDry(9000 * 250), Vessels: []Begun{paperLoad(&m, 10*sim.Day)}}
	rec, d := follow(t, m, caseKey)
	d.on("compost unloaded").at(t, "load unloaded", 192, 650.5)
	d.on("compost unloaded").load(1).count(t, "the load of the first day unloaded", 1)
	d.on("cake mixed").load(2).at(t, "batch of the next load", every(216, 0.5, 5)...)
	jan := rec.Months[0]
	same(t, "vessels in use", jan.Vessels.Mean, 1)
	same(t, "loads out", jan.Release.Loads, 2)
	same(t, "residence, days", jan.Release.Residence, 36)
	same(t, "wet mass of the load that was there", d.on("compost unloaded").load(1).wet(), 15000)
	mostly(t, rec, 1, NoVessel)
	little(t, rec)
}

// A plant of two classes with a vessel each, both loaded 6 days before the start: that of
// the first class is emptied after its 10 days, 4 days after the start at 96 h, that of
// the second after its 20, at 336 h.
func TestCaseVesselsOfClassesLoadedBefore(t *testing.T) {
	m := paper()
	m.Vessels.Residence, m.Vessels.Minimum, m.Vessels.Maximum, m.Vessels.Installed = 10*sim.Day, 10*sim.Day, 30*sim.Day, 2
	m.Vessels.Classes = []VesselClass{{Name: "short", Installed: 1}, {Name: "long", Installed: 1, Residence: 20 * sim.Day, Minimum: 20 * sim.Day}}
	long, short := paperLoad(&m, 6*sim.Day), paperLoad(&m, 6*sim.Day)
	long.Class = 1
	m.Opening = &Opening{Fresh: m.Chips.Fresh.OfDry(9000 * 250), Vessels: []Begun{long, short}}
	_, d := follow(t, m, caseKey)
	d.on("compost unloaded").load(1).at(t, "load of the long stay unloaded", 336)
	d.on("compost unloaded").load(2).at(t, "load of the short stay unloaded", 96)

	m.Opening.Vessels[1].Class = 1
	if err := m.Validate(); err == nil || !strings.Contains(err.Error(), "2 long vessels are in use on the first day, but 1 installed") {
		t.Errorf("two loads in one vessel: %v", err)
	}
	m.Opening.Vessels[1].Class = 2
	if err := m.Validate(); err == nil || !strings.Contains(err.Error(), "there is no class 2") {
		t.Errorf("a class that there is not: %v", err)
	}
}

// Two lots on the pad, tipped out 3 and 9 days before the start, cure for 5 days: one
// goes to the screen at 48 h, for an hour as all lots do, the other at once. The first
// lot has cured 9 days then, and no wait before the start is charged to anything.
//
// Nothing else comes to the screen in January: a load is full at 20.5 h at the earliest
// and stays 40 days.
func TestCaseLotsTippedBefore(t *testing.T) {
	m := paper()
	m.Vessels.Residence, m.Vessels.Maximum = 40*sim.Day, 40*sim.Day
	m.Opening = &Opening{Fresh: m.Chips.Fresh.OfDry(9000 * 250), Pad: []Lying{paperLot(&m, 3*sim.Day), paperLot(&m, 9*sim.Day)}}
	rec, d := follow(t, m, caseKey)
	d.before(january).on("cured mix screened").at(t, "lot to the screen", 0, 48)
	d.before(january).on("product screened").at(t, "product", 1, 49)
	d.before(january).on("product screened").count(t, "lots screened in January", 2)
	jan := rec.Months[0]
	same(t, "cured, days", jan.Curing.Days, 9+5)
	same(t, "room taken at most, m3", jan.Curing.PadPeak, 2*loadVolume)
	same(t, "product, m3", jan.Product.Volume, 2*loadVolume)
	same(t, "cake in it", jan.Product.CakeDry, 2*loadCake)
	same(t, "waited for the screen", jan.Waits[ScreenBusy], 0)
	little(t, rec)
}

// 100 m3 of compost are there, of which 20 m3 are asked for a day, at its end, and none
// is made in January: they last for five days, and 26 · 20 = 520 m3 are short.
func TestCaseProductOfBefore(t *testing.T) {
	m := paper()
	m.Vessels.Residence, m.Vessels.Maximum = 40*sim.Day, 40*sim.Day
	m.Product.Demand = repeat12(20)
	m.Opening = &Opening{Fresh: m.Chips.Fresh.OfDry(9000 * 250), Product: m.Chips.Fresh.OfDry(100 * 250)}
	rec, d := follow(t, m, caseKey)
	jan := rec.Months[0]
	same(t, "taken", jan.Product.TakenVolume, 100)
	same(t, "short", jan.Product.Shortage, 520)
	same(t, "fullest", jan.Product.StorePeak, 100)
	given := d.before(january - 1).on("product taken")
	given.at(t, "product taken", every(24, 24, 5)...)
	same(t, "mass taken", given.dry(), 100*250)
	little(t, rec)
}

// Of chips 60 m3 lie recovered and 1,000 m3 fresh; more are ordered at 900 m3. A batch
// takes 4 m3, every 4 h: the first 15 batches take the recovered ones, those of three
// loads, and 25 more bring fresh chips down to 900 m3, the fortieth at 160 h, which is
// on the seventh day. Without an opening the store is full, with 9,000 m3, and would
// fall to that at 4 · 2,025 = 8,100 h, in December.
func TestCaseChipsOfBefore(t *testing.T) {
	m := paper()
	m.Chips.Reorder = 900
	m.Opening = &Opening{Fresh: m.Chips.Fresh.OfDry(1000 * 250), Recovered: m.Chips.Fresh.OfDry(60 * 250)}
	rec, d := follow(t, m, caseKey)
	if first := rec.ChipOrders[0]; first.Date != (calendar.Date{Year: 2027, Month: 1, Day: 7}) {
		t.Errorf("chips are ordered on %v", first.Date)
	}
	d.on("chips delivered").at(t, "chips", 160+24)
	d.on("chips mixed").at(t, "batch", every(4, 4, 40)...)
	same(t, "of January's chips, fresh", rec.Months[0].Chips.FreshUsed, rec.Months[0].Chips.Used-60)
	same(t, "chips mixed until then, m3", d.on("chips mixed").before(160+1.0/360).dry()/250, 60+100)
	little(t, rec)
}

// 800 kg of cake are held of which the oldest came two days ago: two batches at once, of
// 0 and 0.5 h, while the third waits, with 50 kg of what ran in since, for 400 kg at 4 h.
// The first batch is the older half: it came from 48 to 24 h before, the second from 24 h
// before to the start but for the 50 kg that stay: of 36 and 12.5 h.
func TestCaseCakeOfBefore(t *testing.T) {
	m := paper()
	m.Opening = &Opening{Held: m.Cake.OfDry(800), HeldFor: 2 * sim.Day, Fresh: m.Chips.Fresh.OfDry(9000 * 250)}
	rec, d := follow(t, m, caseKey)
	d.on("cake mixed").at(t, "batch", 0, 0.5, 4, 8)
	jan := rec.Months[0]
	same(t, "oldest cake, days", jan.Holding.Oldest, 2)
	same(t, "most held", jan.Holding.Peak, 800)
	// All others wait 2 h in the mean, from 4 h on one each 4 h, the last of January at
	// 740 h (a second more or less, as alarms ring on the next one).
	others := 185 * batchCake * 2 / 24
	near(t, "waited, kg·d", jan.Holding.Waited, batchCake*(36+12.5)/24+others, 0.001*others)
	little(t, rec)
}

// little checks Little's law on every station that something came to.
func little(t interface {
	Helper()
	Errorf(string, ...any)
}, rec *Record) {
	t.Helper()
	for _, s := range rec.Stations {
		integral := s.MeanLevel * s.Seconds
		// Instants are whole seconds, so a stay may be off by a second.
		if off := integral - s.Stays; max(off, -off) > 1e-6*integral+2*s.Arrived {
			t.Errorf("%s: level integrates to %.6g, stays sum to %.6g", s.Name, integral, s.Stays)
		}
	}
}

// An opening that cannot be is refused.
func TestOpeningRefused(t *testing.T) {
	for name, spoil := range map[string]func(*Model){
		"warm-up":             func(m *Model) { m.WarmUp = 1 },
		"more than installed": func(m *Model) { m.Vessels.Installed = 1 },
		"more than places":    func(m *Model) { m.Yard.Places = 1 },
		"load of tomorrow":    func(m *Model) { m.Opening.Vessels[0].Age = -sim.Day },
		"lot of tomorrow":     func(m *Model) { m.Opening.Pad[0].Age = -sim.Day },
		"cake of tomorrow":    func(m *Model) { m.Opening.HeldFor = -1 },
		"load of nothing":     func(m *Model) { m.Opening.Vessels[0].Load = material.Parcel{} },
		"lot of nothing":      func(m *Model) { m.Opening.Pad[0].Lot = material.Parcel{} },
		"less than no chips":  func(m *Model) { m.Opening.Fresh.Water = -1 },
	} {
		m := paper()
		m.Opening = &Opening{Vessels: []Begun{paperLoad(&m, 0), paperLoad(&m, sim.Day)}, Pad: []Lying{paperLot(&m, 0)}}
		if err := m.Validate(); err != nil {
			t.Fatalf("sound: %v", err)
		}
		if spoil(&m); m.Validate() == nil {
			t.Errorf("%s: not refused", name)
		}
	}
}

// Windows that begin later know nothing of the first day; the first one does.
func TestWindowsForgetTheOpening(t *testing.T) {
	m := paper()
	m.Years = 3
	m.Opening = &Opening{Product: m.Chips.Fresh.OfDry(100)}
	if later := m.Window(1, 1); later.Opening != nil || later.WarmUp != 1 {
		t.Errorf("the second year begins with %+v after %d years", later.Opening, later.WarmUp)
	}
	if first := m.Window(0, 1); first.Opening == nil || first.WarmUp != 0 {
		t.Errorf("the first year begins with %+v after %d years", first.Opening, first.WarmUp)
	}
}
