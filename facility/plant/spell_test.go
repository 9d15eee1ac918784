package plant

import (
	"math"
	"reflect"
	"slices"
	"testing"

	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// tenDays is a spell of the cases from 2 January on, 24 to 264 h.
func tenDays(s Spell) []Spell {
	s.From, s.For = calendar.Date{Year: 2027, Month: 1, Day: 2}, calendar.Span{Days: 10}
	return []Spell{s}
}

// A wet spell of ten days: half as much cake again, at 16 % instead of 20 % solids.
//
//	dry in January   31 · 2,400 + 10 · 1,200 = 86,400 kg
//	wet in January   21 · 12,000 + 10 · 3,600 / 0.16 = 477,000 kg
func TestCaseWetSpell(t *testing.T) {
	m := paper()
	m.Spells = tenDays(Spell{CakeSolids: -0.04, Production: 0.5})
	rec, d := follow(t, m, caseKey)
	came := d.on("cake produced")
	near(t, "dry on 1 January", came.before(24).dry(), 2400, 1e-6)
	near(t, "dry by the end of the spell", came.before(264).dry(), 2400+10*3600, 1e-6)
	near(t, "dry in January", rec.Months[0].Feed.Dry, 86400, 1e-6)
	near(t, "wet in January", rec.Months[0].Feed.Wet, 477000, 1e-6)
	near(t, "wet in February", rec.Months[1].Feed.Wet, 28*12000, 1e-6)
}

// Chips that come in a spell are wetter by its points, dry chips of the cases by 2 % of
// their wet mass, and those that the screen gives back in it as much wetter than they
// were, by rain that the ledger has. After it both are as ever.
func TestCaseRainOnChips(t *testing.T) {
	m := paper()
	m.Vessels.Residence, m.Vessels.Minimum, m.Curing.Time = 2*sim.Day, sim.Day, sim.Day
	m.Screening.Settings.Recovery = 0.8
	m.Chips.Truckload, m.Chips.Reorder = 10, 8985
	m.Spells = tenDays(Spell{ChipMoisture: 0.02})
	_, d := follow(t, m, caseKey)
	checkDeliveries, checkRecovered := 0, 0
	for _, mv := range d.on("chips delivered") {
		want := 0.0
		if h := hourOf(mv.At); h >= 24 && h < 264 {
			want = 0.02
			checkDeliveries++
		}
		near(t, "moisture of a delivery", mv.Amount.Water/mv.Amount.Total, want, 1e-12)
	}
	rain := d.on("rain on recovered chips")
	for _, mv := range d.on("chips recovered").before(2 * january) {
		got := rain.load(mv.Load)
		if h := hourOf(mv.At); h < 24 || h >= 264 {
			got.count(t, "rain outside the spell", 0)
			continue
		}
		got.count(t, "rain on what a lot gave back", 1)
		water, total := mv.Amount.Water, mv.Amount.Total
		fallen := got[0].Amount.Water
		near(t, "moisture in the store", (water+fallen)/(total+fallen), water/total+0.02, 1e-12)
		checkRecovered++
	}
	if checkDeliveries == 0 || checkRecovered == 0 {
		t.Errorf("%d deliveries and chips of %d lots in the spell", checkDeliveries, checkRecovered)
	}
}

// A spell that lasts for the whole run is a plant of that climate, to the last bit: with
// cake as much thinner, chips as much drier, air as much colder and more humid; with lots
// that keep their warmth, are dried, and are there on the first day.
func TestSpellOfAllTimeIsTheClimate(t *testing.T) {
	base := restless()
	base.WarmUp = 0
	pile := *base.Pile
	pile.Tipped = &process.Handling{Share: 0.4}
	base.Pile, base.Drying = &pile, ChosenDrying()
	base.Drying.Vessel = VesselDrying{Air: 60, Moisture: 0.5, Longest: 3 * sim.Day}
	weak := *base.Active
	weak.Blower.Capacity /= 2
	base.Vessels.Classes = []VesselClass{{Name: "a", Installed: 4}, {Name: "b", Installed: 3, Active: &weak}}
	base.Years = 1

	const solids, chips, warmer, damper = -0.02, -0.05, -7, 0.1
	spelled := base
	spelled.Spells = []Spell{{From: base.Begin().AddYears(-1), For: calendar.Span{Months: 40},
		CakeSolids: solids, ChipMoisture: chips, Temperature: warmer, Humidity: damper}}

	climate := base
	climate.Feed.Thicken(solids)
	climate.Chips.Wetter(chips)
	climate.Active, climate.Pile = base.Active.InWeather(warmer, damper), base.Pile.InWeather(warmer, damper)
	climate.Vessels.Classes = slices.Clone(base.Vessels.Classes)
	climate.Vessels.Classes[1].Active = weak.InWeather(warmer, damper)
	if got, was := climate.Active.Site.Temperature[3], base.Active.Site.Temperature[3]; got != was+warmer {
		t.Fatalf("April of the climate has %g °C, %g before", got, was)
	}

	key := random.Key{Seed: 5}
	a, b, usual := mustRun(t, spelled, key), mustRun(t, climate, key), mustRun(t, base, key)
	if !reflect.DeepEqual(a.Months, b.Months) {
		t.Error("a spell of all time is not the climate")
	}
	if reflect.DeepEqual(a.Months, usual.Months) {
		t.Error("neither is other than the usual weather")
	}
}

// Until a spell or an outage begins the run is the one without it, to the last bit. What
// comes in outside a spell is the same, and nothing of it is left in what comes in later.
func TestSetbacksMoveNothingBeforeThem(t *testing.T) {
	base := restless()
	begins := calendar.Date{Year: 2027, Month: 11, Day: 1}
	const before, until = 10, 15 // months of the record
	p := plantOf(t, base)
	run := func(m Model) *Record {
		q, err := p.With(m)
		if err != nil {
			t.Fatal(err)
		}
		rec, err := q.Run(t.Context(), random.Key{Seed: 9})
		if err != nil {
			t.Fatal(err)
		}
		return rec
	}
	usual := run(base)
	spell, outage := base, base
	spell.Spells = []Spell{{From: begins, For: calendar.Span{Months: until - before}, CakeSolids: -0.015, ChipMoisture: 0.08, Temperature: -2, Humidity: 0.05, Production: 0.1}}
	outage.Outages = []Outage{{Date: begins, For: 42 * sim.Day, Vessels: 2}}
	for what, m := range map[string]Model{"spell": spell, "outage": outage} {
		rec := run(m)
		if !reflect.DeepEqual(rec.Months[:before], usual.Months[:before]) {
			t.Errorf("%s: something is otherwise before it", what)
		}
		if reflect.DeepEqual(rec.Months[before:], usual.Months[before:]) {
			t.Errorf("%s: nothing is otherwise from its beginning on", what)
		}
		for i := range rec.Months {
			got, was := rec.Months[i].Feed, usual.Months[i].Feed
			inSpell := what == "spell" && i >= before && i < until
			same := math.Abs(got.Dry-was.Dry) <= 1e-9*was.Dry && math.Abs(got.Wet-was.Wet) <= 1e-9*was.Wet
			if same == inSpell {
				t.Errorf("%s: %+v comes in in month %d, %+v without", what, got, i, was)
			}
			if inSpell && math.Abs(got.CakeDry()/was.CakeDry()-1.1) > 1e-9 {
				t.Errorf("month %d of the spell: %g kg of cake, %g without", i, got.CakeDry(), was.CakeDry())
			}
		}
	}
}

// Plants that share their tables share those of the same air, and have others of another.
func TestSpellsShareTables(t *testing.T) {
	m := paper()
	p := plantOf(t, m)
	in := func(s Spell) *Plant {
		m.Spells = tenDays(s)
		q, err := p.With(m)
		if err != nil {
			t.Fatal(err)
		}
		return q.skies[0]
	}
	cold, again, colder := in(Spell{Temperature: -2}), in(Spell{Temperature: -2, CakeSolids: -0.01}), in(Spell{Temperature: -3})
	if cold.padCourses != again.padCourses || cold.kinds[0].courses != again.kinds[0].courses {
		t.Error("the same air has other tables")
	}
	if cold.padCourses == colder.padCourses || cold.padCourses == p.padCourses || cold.kinds[0].courses == p.kinds[0].courses {
		t.Error("another air has the same tables")
	}
	if in(Spell{CakeSolids: -0.01}) != nil {
		t.Error("the usual air has tables of its own")
	}
}

// Spells that no plant can have are refused, and two at one time.
func TestSpellsThatAreRefused(t *testing.T) {
	day := calendar.Date{Year: 2027, Month: 1, Day: 2}
	long := calendar.Span{Days: 10}
	for what, spells := range map[string][]Spell{
		"no date": {{For: long}}, "no time": {{From: day}}, "more than all production": {{From: day, For: long, Production: -1}},
		"not a number":  {{From: day, For: long, Temperature: math.NaN()}},
		"two at a time": {{From: day, For: long}, {From: day.AddDays(9), For: long}},
	} {
		m := paper()
		m.Spells = spells
		if _, err := New(m); err == nil {
			t.Errorf("%s: %+v is taken", what, spells)
		}
	}
	m := paper()
	m.Spells = []Spell{{From: day, For: long}, {From: day.AddDays(10), For: long}}
	if _, err := New(m); err != nil {
		t.Errorf("one spell after the other: %v", err)
	}
}
