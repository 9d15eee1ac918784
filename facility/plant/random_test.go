package plant

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// facilityMaker draws valid facilities of any size, with any shortage and any
// option, for property tests. What moves the course of a load takes few values,
// so that facilities share the courses in their tables; all else is free.
type facilityMaker struct {
	base  *Plant
	other []*Plant            // that dry or hold what is too wet, each otherwise
	whole *Plant              // with all physics of loads that a file can switch on
	weak  *process.Model      // the course of a class of vessels with less air
	hours [2][]*calendar.Work // to choose from, by years of warm-up
}

func newFacilityMaker(t testing.TB) *facilityMaker {
	t.Helper()
	m := model()
	// A short program, whose courses are soon worked out, in vessels that scale
	// with their load: one of its criteria is met with the help of curing.
	m.Vessels.Residence, m.Vessels.Minimum, m.Vessels.Maximum = 12*sim.Day, 8*sim.Day, 15*sim.Day
	m.Curing.Longest = 45 * sim.Day
	m.Active.Enclosure.Area, m.Active.Enclosure.AreaPerVolume = 0, 2
	m.Active.Blower.Capacity, m.Active.Blower.PerDry = 0, 120
	m.Active.Program = []process.Segment{
		{Name: "heat up and hold", Hours: 6 * 24, Setpoint: 62, MinFlow: 2},
		{Name: "hold", Hours: 6 * 24, Setpoint: 50, MinFlow: 2},
		{Name: "dry and cool", Hours: 3 * 24, Setpoint: 40, MinFlow: 20},
	}
	weak := *m.Active
	weak.Blower.PerDry = 70
	// With both, so that all facilities share the tables of both.
	m.Vessels.Classes = []VesselClass{{Name: "usual", Installed: m.Vessels.Installed}, {Name: "weak", Active: &weak}}
	f := &facilityMaker{base: plantOf(t, m), weak: &weak}
	m.Vessels.Classes = nil
	for _, d := range []Drying{
		{Gate: HoldWet, Longest: 40 * sim.Day},
		{Gate: DryFirst, Longest: 20 * sim.Day, Air: 40, Vessel: VesselDrying{Air: 60, Longest: 6 * sim.Day}},
		{Vessel: VesselDrying{Air: 60, Longest: 6 * sim.Day}},
	} {
		d.Moisture, d.Vessel.Moisture = 0.5, 0.5
		m := m
		m.Drying = d
		if d.Gate == ScreenAnyway { // a load that needs the pad to comply is not dried
			alone := *m.Active
			alone.Criteria = alone.Criteria[:1]
			m.Active = &alone
		}
		other, err := f.base.With(m)
		if err != nil {
			t.Fatal(err)
		}
		f.other = append(f.other, other)
	}
	f.whole = wholePhysics(t, f.base, m)
	for warmUp := range f.hours {
		m.WarmUp = warmUp
		clock := calendar.Clock{Start: m.Begin()}
		long, err := calendar.NewWork(clock, everyDay(calendar.Shift{Open: 5 * 60, Close: 12 * 60}, calendar.Shift{Open: 13 * 60, Close: 21 * 60}),
			calendar.Yearly(5, 1), calendar.LastWeekday(4, 11))
		if err != nil {
			t.Fatal(err)
		}
		f.hours[warmUp] = []*calendar.Work{calendar.Always(), dayShift(t, &m), long}
	}
	return f
}

// wholePhysics returns the plant of a model with lively rates of loads that awake, ice,
// intake temperatures, structure and air path, ammonia by microbes, a program that waits
// and comes down by ramps, lots that keep their warmth and are turned, water for dry ones,
// and a gate of drying before the screen.
func wholePhysics(t testing.TB, base *Plant, m Model) *Plant {
	t.Helper()
	vessel, pile := *m.Active, *m.Pile
	vessel.Kinetics, pile.Kinetics = process.LivelyKinetics(), process.LivelyKinetics()
	pile.Kinetics.Awakening = process.Awakening{}
	vessel.Intake = new(process.Intake)
	for i, ambient := range vessel.Site.Temperature {
		vessel.Intake.Cake[i], vessel.Intake.Chips[i] = 14, ambient-4
	}
	m.Bulk.Structure = material.DefaultStructure(material.DefaultDepth)
	m.Chemistry.Microbes = material.DefaultMicrobes()
	for _, course := range []*process.Model{&vessel, &pile} {
		course.Heat.Fusion = process.FusionHeat
		course.Bulk.Structure = m.Bulk.Structure
		course.AirPath = process.DefaultAirPath()
		course.Chemistry = m.Chemistry
	}
	vessel.Criteria = append(slices.Clone(vessel.Criteria), process.AirThroughout())
	vessel.Program = slices.Clone(vessel.Program)
	vessel.Program[0].Until = &process.Ending{Criterion: process.PathogenReduction(), Longest: 9 * 24}
	vessel.Program[1].Ramp = process.DefaultRamp
	vessel.Blower.Turndown = process.DefaultTurndown
	handling := process.DefaultHandling()
	pile.Tipped, pile.Turning = &handling, process.DefaultTurning()
	m.Active, m.Pile = &vessel, &pile
	m.Drying = ChosenDrying()
	p, err := base.With(m)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// plant draws a facility, one in four with a warm-up.
func (f *facilityMaker) plant(t *rapid.T) *Plant {
	d := draw{t}
	warmUp := rapid.SampledFrom([]int{0, 0, 0, 1}).Draw(t, "warm-up")
	base := f.base
	if d.yes("minds what is wet") {
		base = f.other[d.int("drying", 0, len(f.other)-1)]
	}
	if d.int("all physics", 0, 9) == 0 {
		base = f.whole
	}
	m := base.Model
	m.Drying.Moisture, m.Drying.Vessel.Moisture = d.between("dry enough", 0.4, 0.6), d.between("dry enough in the vessel", 0.4, 0.6)
	m.Years, m.WarmUp = 1, warmUp
	hours := f.hours[warmUp]
	d.supply(&m, hours)
	d.making(&m, hours)
	if base == f.whole { // the more its physics, the more courses it takes
		m.Feed.CakeSolids, m.Feed.SolidsCV = repeat12(0.21), 0
	}
	d.vessels(&m, hours)
	m.Vessels.Classes = nil
	if d.int("several classes of vessels", 0, 2) == 0 {
		d.classes(&m, f.weakOf(&m))
	}
	d.finishing(&m, hours)
	d.amendments(&m)
	m.Yard = Yard{
		Trucks: d.crew("trucks"), Loaders: d.crew("loaders"), Operators: d.crew("operators"),
		Move:          d.time("move", 0, 2*sim.Hour),
		Places:        d.int("places", 0, 20),
		LoadingPlaces: d.int("loading places", 0, 3),
		PlaceService:  d.maintenance("place"),
	}
	m.Opening = nil
	if warmUp == 0 && d.yes("something is there on the first day") {
		m.Opening = d.opening(&m)
	}
	m.Changes = nil
	for range d.int("changes", 0, 3) {
		c := d.change(hours)
		c.Class = d.int("class of more vessels", 0, m.Vessels.ClassCount()-1)
		m.Changes = append(m.Changes, c)
	}
	d.contracts(&m)
	d.setbacks(&m, base != f.whole)
	p, err := base.With(m)
	if err != nil {
		t.Fatalf("a valid model was refused: %v", err)
	}
	return p
}

// draw draws values under their names.
type draw struct{ t *rapid.T }

func (d draw) one(name string, of ...float64) float64 { return rapid.SampledFrom(of).Draw(d.t, name) }
func (d draw) int(name string, low, high int) int {
	return rapid.IntRange(low, high).Draw(d.t, name)
}
func (d draw) between(name string, low, high float64) float64 {
	return rapid.Float64Range(low, high).Draw(d.t, name)
}
func (d draw) yes(name string) bool { return rapid.Bool().Draw(d.t, name) }
func (d draw) time(name string, low, high sim.Duration) sim.Duration {
	return sim.Duration(d.int(name, int(low), int(high)))
}
func (d draw) maintenance(of string) Maintenance {
	if !d.yes(of + " is serviced") {
		return Maintenance{}
	}
	return Maintenance{Every: d.time(of+" service every", 20*sim.Day, 400*sim.Day), Takes: d.time(of+" service takes", sim.Day, 30*sim.Day)}
}
func (d draw) hours(name string, of []*calendar.Work) *calendar.Work {
	return of[d.int(name, 0, len(of)-1)]
}
func (d draw) date(name string) calendar.Date {
	return calendar.Date{Year: 2026, Month: 6, Day: 1}.AddDays(d.int(name, 0, 550))
}

func (d draw) months(name string, low, high float64) (all [12]float64) {
	for i := range all {
		all[i] = d.between(name, low, high)
	}
	return all
}

// What runs in is nothing or an amount that can be weighed: a share of 1e-300 is
// a number, but no cake.
func (d draw) monthlyAmounts(name string, most int) (all [12]float64) {
	for i := range all {
		all[i] = float64(d.int(name, 0, most))
	}
	return all
}

func (d draw) week(name string) (all [7]float64) {
	for i := range all {
		all[i] = float64(d.int(name+", percent", 0, 200)) / 100
	}
	all[d.int(name+", surely", 0, 6)] = 1
	return all
}

// failure is none at times.
func (d draw) failure(name string) Failure {
	if !d.yes(name + " breaks down") {
		return Failure{}
	}
	return Failure{
		Every:  d.time(name+" fails every", sim.Day, 60*sim.Day),
		Repair: d.time(name+" repair", sim.Minute, 5*sim.Day),
	}
}

func (d draw) crew(name string) Crew {
	c := Crew{Count: d.int(name, 0, 2)}
	if c.Count > 0 {
		c.Failure = d.failure(name)
	}
	return c
}

// supply draws what comes in, and what becomes of it before the mixer.
func (d draw) supply(m *Model, hours []*calendar.Work) {
	m.Feed = Feed{
		Base: d.between("base", 150, 3000),
		Growth: rapid.SampledFrom([]Growth{
			Compound{}, Compound{Rate: 0.1}, Compound{Rate: -0.05}, Linear{Rate: 0.08}, ByYear{1, 1.2, 0.9},
		}).Draw(d.t, "growth"),
		Month:      d.months("month", 0.5, 1.5),
		Weekday:    d.week("weekday"),
		Noise:      random.AR1Lognormal{CV: d.between("noise", 0, 0.5), Correlation: d.between("correlation", 0, 0.9)},
		CakeSolids: repeat12(d.one("cake solids", 0.17, 0.21, 0.26)),
		SolidsCV:   d.one("solids noise", 0, 0.03),
	}
	if d.int("one plant sends all", 0, 3) == 0 {
		m.Feed.Sources = d.sources()
		m.Feed.Combine()
	}
	for range d.int("pulses", 0, 2) {
		m.Feed.Pulses = append(m.Feed.Pulses, Pulse{From: d.date("pulse"), Days: d.int("pulse days", 1, 40), PerDay: float64(d.int("pulse amount", 0, 2000))})
	}
	m.Cake.Rapidly = d.one("rapidly degradable", 0, 0.1)
	hauled, manure := m.Cake, m.Cake
	hauled.Name, hauled.Moisture = "hauled-in cake", 0.84
	manure.Name, manure.Moisture, manure.Volatile = "manure", 0.72, 0.8
	m.Feedstocks = nil
	for _, spec := range []material.Spec{hauled, manure} {
		if d.yes(spec.Name) {
			m.Feedstocks = append(m.Feedstocks, Feedstock{Material: spec, PerDay: d.monthlyAmounts(spec.Name, 300),
				Weekday: d.week(spec.Name + ", weekday"), CV: d.between(spec.Name+" noise", 0, 0.5)})
		}
	}
	m.Dewatering = Dewatering{}
	if d.yes("dewatering on demand") {
		m.Dewatering = Dewatering{Rate: d.between("dewatering", 20, 2000), Hours: d.hours("dewatering hours", hours)}
	}
	m.Holding = Holding{Capacity: d.between("holding", 500, 10000), StartWith: d.between("start with", 0, 1)}
	m.Chips.Truckload = d.between("truckload", 20, 80)
	m.Chips.OrderUpTo = d.between("order up to", 100, 400)
	m.Chips.Capacity = m.Chips.OrderUpTo + d.between("chip room", 0, 50)
	m.Chips.Reorder = d.between("reorder", 0, 0.99) * (m.Chips.OrderUpTo - m.Chips.Truckload)
	m.Chips.LeadTime, m.Chips.LeadCV = d.time("lead time", 0, 60*sim.Day), d.between("lead spread", 0, 1)
	m.Chips.Sources = nil
	if d.int("one supplier", 0, 2) == 0 {
		m.Chips.Sources = d.chipSources(m, (m.Chips.OrderUpTo-m.Chips.Reorder)/1.6)
		m.Chips.Combine()
	}
	m.Media = Media{}
	if d.yes("media") {
		m.Media = Media{Every: d.time("media every", 10*sim.Day, 300*sim.Day), Volume: d.between("media volume", 1, 100)}
	}
}

// making draws mixer and recipe.
func (d draw) making(m *Model, hours []*calendar.Work) {
	m.Recipe.ChipsPerCake = d.one("ratio", 1.8, 2.5, 3.2)
	m.Mixer = Mixer{Count: d.int("mixers", 0, 3), Volume: d.between("mixer", 2, 15), Scale: d.between("scale", 1000, 10000),
		BatchTime: d.time("batch time", 5*sim.Minute, 2*sim.Hour), Hours: d.hours("mixer hours", hours), Failure: d.failure("mixer")}
}

// vessels draws vessels and their air.
func (d draw) vessels(m *Model, hours []*calendar.Work) {
	v := &m.Vessels
	v.Installed = d.int("vessels", 0, 30)
	v.Unlimited = d.int("unlimited vessels", 0, 9) == 9
	v.Volume, v.Payload = d.between("vessel volume", 12, 50), d.between("payload", 9000, 18144)
	v.Early = d.yes("early release")
	v.Turnaround = d.time("turnaround", 0, 5*sim.Day)
	v.PartFilled = d.time("part-filled wait", sim.Day, 60*sim.Day)
	v.Hours = d.hours("vessel hours", hours)
	v.Service = d.maintenance("vessel")
	m.Air = Air{}
	limits := d.int("limits of air", 0, 7) // seldom, as following the air takes long
	if limits == 1 || limits == 3 {
		m.Air.Blowers = d.between("blowers", 100, 10000)
	}
	if limits == 2 || limits == 3 {
		m.Air.Area, m.Air.Loading = d.between("biofilter", 5, 150), 60
	}
}

// weakOf is the course with less air, nil where the facility is one of other physics.
func (f *facilityMaker) weakOf(m *Model) *process.Model {
	if m.Active != f.base.Active {
		return nil
	}
	return f.weak
}

// classes draws two or three classes for the vessels installed, each with some things of
// its own.
func (d draw) classes(m *Model, weak *process.Model) {
	v := &m.Vessels
	n := d.int("classes", 2, 3)
	for i, left := 0, v.Installed; i < n; i++ {
		c := VesselClass{Name: []string{"a", "b", "c"}[i], Installed: left}
		if i < n-1 {
			c.Installed = d.int("of the class", 0, left)
		}
		left -= c.Installed
		if d.yes("a size of its own") {
			c.Volume, c.Payload = d.between("volume of the class", 12, 80), d.one("payload of the class", 9000, 18144, math.Inf(1))
		}
		if d.yes("times of its own") {
			turnaround := d.time("turnaround of the class", 0, 5*sim.Day)
			c.Residence, c.Turnaround = d.time("residence of the class", 9*sim.Day, 14*sim.Day), &turnaround
		}
		if d.yes("less air") {
			c.Active = weak
		}
		v.Classes = append(v.Classes, c)
	}
	v.Extra = d.int("class of extra vessels", 0, n-1)
}

// finishing draws pad, screen and product store.
func (d draw) finishing(m *Model, hours []*calendar.Work) {
	m.Curing.Capacity = d.between("pad", 60, 2000)
	m.Curing.Time = d.time("curing", sim.Day, m.Curing.Longest)
	m.Curing.ReadilyLeft = d.one("readily degradable left", 1, 0.3, 0.01)
	if d.yes("lots get water") {
		m.Curing.Rewet.Below = d.one("water below", 0.4, 0.55, 0.7)
		m.Curing.Rewet.UpTo = m.Curing.Rewet.Below + d.one("moisture more", 0, 0.05, 0.1)
	}
	s := &m.Screening
	s.First, s.Hours, s.Failure = d.yes("screen first"), d.hours("screen hours", hours), d.failure("screen")
	s.Count = d.int("screens", 0, 3)
	s.Settings.Capacity = d.between("screen", 2, 60)
	s.Settings.Recovery = d.one("recovery", 0.65, 0.85)
	m.Product = Product{Capacity: d.between("product store", 60, 2000), Demand: d.months("demand", 0, 60)}
}

// amendments draws none for three facilities in four.
func (d draw) amendments(m *Model) {
	m.Amendments = nil
	if d.int("amendments", 0, 3) > 0 {
		return
	}
	for i, spec := range []material.Spec{
		{Name: "ground wood", Moisture: 0.4, Volatile: 0.95, Slowly: 0.2, Nitrogen: 0.0025, Coarse: 0.5, BulkDensity: 250},
		{Name: "sawdust", Moisture: 0.3, Volatile: 0.98, Slowly: 0.2, Nitrogen: 0.0025, BulkDensity: 240},
	} {
		a := Amendment{Material: spec, Without: d.yes("do without"), Store: d.between("amendment store", 1, 200)}
		for month := range a.PerCake {
			a.PerCake[month] = d.one("amendment ratio", 0, 0.3)
		}
		if i == 0 || d.yes("own sources too") {
			a.Own = d.monthlyAmounts("own amendment", 20)
			a.Own[d.int("own amendment, surely", 0, 11)] = 3
		}
		if i == 1 {
			a.Buying = Ordering{Truckload: a.Store / 4, Reorder: a.Store / 4, OrderUpTo: a.Store, LeadTime: d.time("amendment lead", 0, 30*sim.Day), LeadCV: 0.5}
		}
		m.Amendments = append(m.Amendments, a)
	}
	if d.yes("product mixed") {
		m.Amendments = append(m.Amendments, Amendment{Material: material.Spec{Name: "product"}, Source: FromProduct, Without: true,
			PerCake: repeat12(0.2), Kept: d.between("kept", 0, 30)})
	}
}
