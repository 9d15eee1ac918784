package plant

import (
	"math"
	"slices"
	"testing"
	"time"

	"loamcast/facility/process"
	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// ampleModel is a plant offered more than a test can make it take, with plenty of
// everything, so that the test can make one stage short.
func ampleModel() Model {
	m := model()
	m.Active.Program = []process.Segment{{Name: "hold", Hours: 240, Setpoint: 58, MinFlow: 4}}
	m.Active.Criteria = nil
	m.Active.Site.Temperature = repeat12(15)
	m.Years, m.WarmUp = 3, 1
	m.Feed.Base = 4000
	m.Mixer.Volume = 9
	m.Holding = Holding{Capacity: 20000, StartWith: 1}
	m.Vessels = Vessels{Installed: 60, Volume: 31, Payload: 18144,
		Residence: 10 * sim.Day, Minimum: 8 * sim.Day, Maximum: 15 * sim.Day,
		Turnaround: 1 * sim.Day, PartFilled: 30 * sim.Day, Hours: m.Vessels.Hours}
	m.Curing = Curing{Capacity: 1e5, Time: 15 * sim.Day, Longest: 30 * sim.Day, ReadilyLeft: 1}
	m.Chips.Capacity, m.Chips.OrderUpTo, m.Chips.Reorder, m.Chips.LeadTime = 3000, 3000, 2000, 3*sim.Day
	m.Product = Product{Capacity: 2000, Demand: repeat12(1000)}
	return m
}

// A plant that is offered more than it can take, and short of one thing only,
// carries what the arithmetic says that this thing sustains.
func TestShortStageCarriesItsCapacity(t *testing.T) {
	if testing.Short() {
		t.Skip("runs in the round without -short; takes long under the race detector")
	}
	base := plantOf(t, ampleModel())
	shift := dayShift(t, &base.Model)
	onShift := func(m *Model) { m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours = shift, shift, shift }
	haul := func(m *Model) { m.Yard.Move = 30 * sim.Minute }
	small := func(m *Model) { m.Curing.Capacity, m.Product.Capacity = 900, 100 }
	for _, c := range []struct {
		name  string
		stage Stage
		short func(*Model)
	}{
		{"vessels", AtVessels, func(m *Model) { m.Vessels.Installed = 12 }},
		{"vessels, day shift", AtVessels, func(m *Model) { onShift(m); haul(m); m.Vessels.Installed = 12 }},
		{"mixer", AtMixer, func(m *Model) { m.Mixer.BatchTime = 4 * sim.Hour }},
		{"mixer, day shift", AtMixer, func(m *Model) { onShift(m); m.Mixer.BatchTime = 68 * sim.Minute }},
		{"mixer, breakdowns", AtMixer, func(m *Model) {
			m.Mixer.BatchTime = 4 * sim.Hour
			m.Mixer.Failure = Failure{Every: 4 * sim.Day, Repair: 1 * sim.Day}
		}},
		{"two mixers", AtMixer, func(m *Model) { m.Mixer.Count, m.Mixer.BatchTime = 2, 8*sim.Hour }},
		{"three mixers, day shift", AtMixer, func(m *Model) { onShift(m); m.Mixer.Count, m.Mixer.BatchTime = 3, 250*sim.Minute }},
		{"two mixers, breakdowns", AtMixer, func(m *Model) {
			m.Mixer.Count, m.Mixer.BatchTime = 2, 8*sim.Hour
			m.Mixer.Failure = Failure{Every: 8 * sim.Day, Repair: 2 * sim.Day}
		}},
		{"two mixers, one dewatering", AtMixer, func(m *Model) {
			m.Mixer.Count, m.Mixer.BatchTime = 2, 6*sim.Hour
			m.Dewatering = Dewatering{Rate: 400, Hours: m.Mixer.Hours}
		}},
		{"vessels, maintenance", AtVessels, func(m *Model) {
			m.Vessels.Installed = 12
			m.Vessels.Service = Maintenance{Every: 60 * sim.Day, Takes: 10 * sim.Day}
		}},
		{"vessels, early", AtVessels, func(m *Model) { m.Vessels.Installed = 12; m.Vessels.Early = true }},
		{"dewatering", AtDewatering, func(m *Model) { m.Dewatering = Dewatering{Rate: 40, Hours: m.Mixer.Hours} }},
		{"dewatering, day shift", AtDewatering, func(m *Model) { m.Dewatering = Dewatering{Rate: 100, Hours: shift} }},
		{"places", AtPlaces, func(m *Model) { haul(m); m.Yard.Places = 10 }},
		{"places, day shift", AtPlaces, func(m *Model) { onShift(m); haul(m); m.Yard.Places = 10 }},
		{"trucks", AtTrucks, func(m *Model) { m.Yard.Move = 10 * sim.Hour; m.Yard.Trucks.Count = 2 }},
		{"loaders", AtLoaders, func(m *Model) {
			m.Yard.Loaders.Count = 1
			m.Mixer.BatchTime = 3 * sim.Hour
			m.Screening.Settings.Capacity = 5
		}},
		{"operators", AtOperators, func(m *Model) {
			m.Yard = Yard{Move: sim.Hour, Operators: Crew{Count: 2, Failure: Failure{Every: 10 * sim.Day, Repair: 3 * sim.Day}}}
			m.Mixer.BatchTime, m.Screening.Settings.Capacity = 3*sim.Hour, 2
		}},
		{"pad", AtPad, func(m *Model) { m.Curing.Capacity = 300 }},
		{"pad, dried", AtPad, func(m *Model) {
			m.Curing.Capacity = 300
			m.Drying = Drying{Gate: DryFirst, Moisture: 0.45, Longest: 10 * sim.Day, Air: 100}
		}},
		{"pad, screen first", AtPad, func(m *Model) { m.Curing.Capacity = 150; m.Screening.First = true }},
		{"screen", AtScreen, func(m *Model) { small(m); m.Screening.Settings.Capacity = 0.7 }},
		{"screen, day shift", AtScreen, func(m *Model) { small(m); m.Screening.Hours = shift; m.Screening.Settings.Capacity = 3 }},
		{"two screens", AtScreen, func(m *Model) { small(m); m.Screening.Count, m.Screening.Settings.Capacity = 2, 0.35 }},
		{"three screens, breakdowns", AtScreen, func(m *Model) {
			small(m)
			m.Screening.Count, m.Screening.Settings.Capacity = 3, 0.3
			m.Screening.Failure = Failure{Every: 6 * sim.Day, Repair: 2 * sim.Day}
		}},
		{"demand", AtDemand, func(m *Model) { small(m); m.Product.Demand = repeat12(6) }},
		{"deliveries", AtDeliveries, func(m *Model) { m.Chips.OrderUpTo, m.Chips.Reorder, m.Chips.LeadTime = 140, 60, 10*sim.Day }},
		{"deliveries, two orders out", AtDeliveries, func(m *Model) { m.Chips.OrderUpTo, m.Chips.Reorder, m.Chips.LeadTime = 350, 150, 40*sim.Day }},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := base.Model
			c.short(&m)
			p, err := base.With(m)
			if err != nil {
				t.Fatal(err)
			}
			rec, err := p.Run(t.Context(), random.Key{Seed: 1})
			if err != nil {
				t.Fatal(err)
			}
			carried := total(rec, func(m *Month) float64 { return m.Mixing.CakeDry }) / total(rec, func(m *Month) float64 { return m.Days })
			sustains := capacityOf(t, p, p.Start, NeedsOf(rec.Months), c.stage)
			t.Logf("carries %.0f kg/day, by arithmetic %.0f: %+.1f %%", carried, sustains, 100*(carried/sustains-1))
			if math.Abs(carried/sustains-1) > 0.05 {
				t.Errorf("carries %.0f kg/day, by arithmetic %.0f", carried, sustains)
			}
			for _, other := range p.Capacities(p.Start, NeedsOf(rec.Months)) {
				if other.CakeDry < 0.95*sustains { // dewatering and mixer work together
					t.Errorf("%v sustains only %.0f kg/day", other.Stage, other.CakeDry)
				}
			}
		})
	}
}

// capacityOf returns what one stage sustains.
func capacityOf(t *testing.T, p *Plant, on calendar.Date, needs Needs, stage Stage) float64 {
	t.Helper()
	for _, c := range p.Capacities(on, needs) {
		if c.Stage == stage {
			return c.CakeDry
		}
	}
	t.Fatalf("%v is left out", stage)
	return 0
}

// handNeeds make loads of 1,000 kg dry of cake: 18 t and 30 m3 of mix.
var handNeeds = Needs{Payload: 18, Volume: 0.03, Pad: 1.5, Screen: 0.03, Product: 0.004, Chips: 0.006}

// handModel sustains, with handNeeds, figures that can be worked out by hand.
func handModel(t *testing.T) Model {
	m := model()
	m.Start, m.Years, m.WarmUp = calendar.Date{Year: 2029, Month: 1, Day: 1}, 6, 2     // a Monday
	shift := dayShift(t, &m)                                                           // 42.5 h a week
	m.Mixer = Mixer{Volume: 10, Scale: 4500, BatchTime: 30 * sim.Minute, Hours: shift} // 4 batches
	m.Vessels.Volume, m.Vessels.Payload, m.Vessels.Installed = 30, 18000, 10
	m.Vessels.Hours, m.Screening.Hours = shift, shift
	m.Yard = Yard{Move: 20 * sim.Minute, Trucks: Crew{Count: 1}, Loaders: Crew{Count: 1}, Operators: Crew{Count: 2}, Places: 7}
	m.Dewatering = Dewatering{Rate: 500, Hours: shift}
	m.Screening.Settings.Capacity = 10
	m.Curing.Capacity = 900
	m.Product.Demand = [12]float64{0, 0, 0, 0, 12, 12, 12, 12, 0, 0, 0, 0}
	m.Chips.OrderUpTo, m.Chips.Reorder, m.Chips.Truckload, m.Chips.LeadTime = 300, 100, 60, 10*sim.Day
	m.Media = Media{Every: 365 * sim.Day, Volume: 146}
	return m
}

// Each formula gives what the same arithmetic gives by hand. The year has 261
// working days.
func TestCapacitiesByHand(t *testing.T) {
	p := plantOf(t, handModel(t))
	const days = 261.0 / 365
	for stage, want := range map[Stage]float64{
		AtDewatering: 17 * 250 * days,                     // half an hour makes a batch, 8.5 h hold 17
		AtMixer:      9 * 250 * days,                      // an hour for a batch; the ninth is finished after the shift
		AtTrucks:     26 / 3.0 * 1000 * days,              // the 26th move is finished after it
		AtLoaders:    8.5 / (4 + 3) * 1000 * days,         // 4 h to mix a load, 3 h to screen it
		AtOperators:  2 * 8.5 / (4 + 3 + 1) * 1000 * days, // and 1 h to carry it
		AtPad:        900 / 1.5,
		AtScreen:     8.5 * 10 / 0.03 * days,
		AtDemand:     4 / 0.004,
		AtDeliveries: (180.0/10 - 146.0/365) / 0.006, // 3 truckloads at a time, one order out
	} {
		if got := capacityOf(t, p, p.Start, handNeeds, stage); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("%v sustains %g kg/day, by hand %g", stage, got, want)
		}
	}
	m := handModel(t)
	m.Mixer.Count, m.Screening.Count = 2, 3
	p = plantOf(t, m)
	for stage, want := range map[Stage]float64{
		AtMixer:   9 / 2.5 * 1000 * days, // batches at 0, 0.5, 1 and 1.5 h, when the cake of the one before is made: 2.5 h
		AtScreen:  3 * 8.5 * 10 / 0.03 * days,
		AtLoaders: 8.5 / (4 + 3) * 1000 * days, // as many hours of a loader
	} {
		if got := capacityOf(t, p, p.Start, handNeeds, stage); math.Abs(got/want-1) > 1e-9 {
			t.Errorf("of two mixers and three screens %v sustains %g kg/day, by hand %g", stage, got, want)
		}
	}
}

// Working round the clock, a load takes a vessel for loading, two moves, its stay,
// turnaround and the move back, and a place for one move and its stay. Released
// early it stays as long as it must, unless the plant would then turn more than
// one vessel round at a time.
func TestVesselCapacityByHand(t *testing.T) {
	m := handModel(t)
	always := calendar.Always()
	m.Mixer.Hours, m.Vessels.Hours, m.Dewatering.Hours = always, always, always
	m.Vessels.Residence, m.Vessels.Minimum, m.Vessels.Turnaround = 18*sim.Day, 15*sim.Day, 19*sim.Hour
	const vesselHours, placeHours = 4 + 1 + 18*24 + 19, 1.0/3 + 18*24
	maintained, early, pressed := m, m, m
	maintained.Vessels.Service = Maintenance{Every: 100 * sim.Day, Takes: 5 * sim.Day}
	early.Vessels.Early = true
	pressed.Vessels.Early, pressed.Vessels.Installed = true, 21
	for _, c := range []struct {
		name  string
		model Model
		stage Stage
		loads float64 // per day
	}{
		{"vessels", m, AtVessels, 10 * 24 / float64(vesselHours)},
		{"places", m, AtPlaces, 7 * 24 / placeHours},
		{"maintenance", maintained, AtVessels, 10 * 24 / float64(vesselHours) * (1 - 5/(100+19.0/2))},
		{"early", early, AtVessels, 10 * 24 / float64(vesselHours-3*24)},
		{"early, too many", pressed, AtVessels, 24 / (19 + 2.0/3)},
	} {
		if got := capacityOf(t, plantOf(t, c.model), c.model.Start, handNeeds, c.stage) / 1000; math.Abs(got/c.loads-1) > 1e-6 {
			t.Errorf("%s: %g loads a day, by hand %g", c.name, got, c.loads)
		}
	}
}

// What is not limited, or whose need is not known, is left out; and before any
// cake is mixed the load is the static one.
func TestCapacitiesLeaveOut(t *testing.T) {
	m := model()
	m.Chips.LeadTime = 0
	p := plantOf(t, m)
	stages := func(p *Plant, needs Needs) (out []Stage) {
		for _, c := range p.Capacities(p.Start, needs) {
			out = append(out, c.Stage)
		}
		return out
	}
	for _, c := range []struct {
		name  string
		plant *Plant
		needs Needs
		want  []Stage
	}{
		{"nothing is known", p, Needs{}, []Stage{AtMixer, AtVessels}},
		{"needs are known", p, handNeeds, []Stage{AtMixer, AtVessels, AtPad, AtScreen, AtDemand}},
		{"any number of vessels", p.Unlimited(), Needs{}, []Stage{AtMixer}},
		{"all is limited", plantOf(t, handModel(t)), handNeeds, []Stage{AtDewatering, AtMixer, AtVessels, AtPlaces,
			AtTrucks, AtLoaders, AtOperators, AtPad, AtScreen, AtDemand, AtDeliveries}},
	} {
		if got := stages(c.plant, c.needs); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	want := float64(m.Vessels.Installed) / (m.Vessels.Residence + m.Vessels.Turnaround).Days() * p.StaticNeed(0).LoadCakeDry
	if got := capacityOf(t, p, p.Start, Needs{}, AtVessels); !(got < want && got > 0.97*want) {
		t.Errorf("vessels sustain %g kg/day before any cake is mixed, %g without the time of loading", got, want)
	}
}

// Changes with a date count from the day on which they take effect, in the order
// in which they do; those that wait for a trigger never do. The plant itself
// stays as it was.
func TestCapacitiesFollowDatedChanges(t *testing.T) {
	m := handModel(t)
	m.Changes = []Change{
		{Name: "screen again", Date: calendar.Date{Year: 2032, Month: 1, Day: 1}, ScreenCapacity: 40},
		{Name: "screen", Date: calendar.Date{Year: 2030, Month: 1, Day: 1}, Lead: calendar.Span{Days: 365}, ScreenCapacity: 20},
		{Name: "pad", Date: calendar.Date{Year: 2029, Month: 7, Day: 1}, Pad: 100},
		{Name: "if needed", Trigger: Trigger{Held: 0.5, For: sim.Day}, Pad: 1000, Vessels: 5},
		{Name: "if more comes", Trigger: Trigger{Production: 1}, Pad: 1000, Vessels: 5},
		{Name: "screens", Date: calendar.Date{Year: 2034, Month: 1, Day: 1}, Screens: 2},
		{Name: "crew", Date: calendar.Date{Year: 2033, Month: 1, Day: 1}, Trucks: 1, Loaders: 2, Operators: 2, Places: 7, Vessels: 10},
	}
	p := plantOf(t, m)
	screens := capacityOf(t, p, p.Start, handNeeds, AtScreen)
	for _, c := range []struct {
		year, month, day int
		stage            Stage
		want             float64 // times what it is at first
	}{
		{2029, 6, 30, AtPad, 1}, {2029, 7, 1, AtPad, 10.0 / 9}, {2034, 12, 31, AtPad, 10.0 / 9},
		{2030, 12, 31, AtScreen, 1}, {2031, 1, 1, AtScreen, 2}, {2032, 1, 1, AtScreen, 4}, {2034, 1, 1, AtScreen, 12},
		{2032, 12, 31, AtVessels, 1}, {2033, 1, 1, AtVessels, 2}, {2033, 1, 1, AtPlaces, 2},
		{2032, 12, 31, AtTrucks, 1}, {2033, 1, 1, AtTrucks, 2},
	} {
		on := calendar.Date{Year: c.year, Month: time.Month(c.month), Day: c.day}
		first, got := capacityOf(t, p, p.Start, handNeeds, c.stage), capacityOf(t, p, on, handNeeds, c.stage)
		if math.Abs(got/first-c.want) > 1e-9 {
			t.Errorf("on %v %v sustains %g times as much, want %g", on, c.stage, got/first, c.want)
		}
	}
	if got := capacityOf(t, p, p.Start, handNeeds, AtScreen); got != screens {
		t.Errorf("the plant was changed: its screen sustains %g kg/day, %g before", got, screens)
	}
}

// Units in working order follow Erlang's loss formula: 1/(1 + a) of one, and
// 6 − 4·(1 − 0.1171624714) of six on which four repairs fall at a time (loss
// probability from an independent queueing package, see the engine's tests).
func TestMachinesInWorkingOrder(t *testing.T) {
	for _, c := range []struct {
		failure Failure
		units   int
		want    float64
	}{
		{Failure{}, 3, 3},
		{Failure{Every: 4 * sim.Day, Repair: sim.Day}, 1, 0.8},
		{Failure{Every: 6 * sim.Day, Repair: 4 * sim.Day}, 6, 6 - 4*(1-0.1171624714)},
	} {
		if got := c.failure.working(c.units); math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%+v of each: %g of %d in order, want %g", c.failure, got, c.units, c.want)
		}
	}
}
