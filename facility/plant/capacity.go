package plant

import (
	"math"
	"slices"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Stage is a part of the plant that can limit how much cake it carries.
type Stage int

// The stages, in the order in which they are reported.
const (
	AtDewatering Stage = iota
	AtMixer
	AtVessels
	AtPlaces
	AtTrucks
	AtLoaders
	AtOperators
	AtPad
	AtScreen
	AtDemand
	AtDeliveries
	numStages
)

// StageNames names the stages in plain words.
var StageNames = [numStages]string{
	"dewatering", "mixer", "vessels", "aerated places", "trucks", "loaders", "operators",
	"curing pad", "screen", "product demand", "chip deliveries",
}

// String returns the stage's name.
func (s Stage) String() string { return StageNames[s] }

// Capacity is what a stage could sustain if it were the only one: kg dry of
// cake per day, feedstocks included, mean over all days of the week.
type Capacity struct {
	Stage   Stage
	CakeDry float64
}

// Needs is what a kg dry of cake takes of the stages that it reaches as mix,
// compost or product, and of fresh chips. Only a run can tell: it depends on how
// the chips come round. What is 0 is not known.
type Needs struct {
	Pad     float64 // of the curing pad, m3 × days
	Screen  float64 // m3 on the screen, as Month.ScreenWork counts it
	Product float64 // m3
	Chips   float64 // fresh, m3
}

// NeedsOf returns the needs that the months of one or more records show.
func NeedsOf(months []Month) Needs {
	var sum Month
	for i := range months {
		m := &months[i]
		sum.CuringRoom += m.CuringRoom
		sum.CuringCakeDry += m.CuringCakeDry
		sum.ScreenWork += m.ScreenWork
		sum.ScreenedCakeDry += m.ScreenedCakeDry
		sum.ProductVolume += m.ProductVolume
		sum.ProductCakeDry += m.ProductCakeDry
		sum.ChipsFreshUsed += m.ChipsFreshUsed
		sum.MixedDry += m.MixedDry
	}
	return Needs{
		Pad:     sum.CuringRoom * over(sum.CuringCakeDry),
		Screen:  sum.ScreenWork * over(sum.ScreenedCakeDry),
		Product: sum.ProductVolume * over(sum.ProductCakeDry),
		Chips:   sum.ChipsFreshUsed * over(sum.MixedDry),
	}
}

// Capacities returns what each stage could sustain alone at a time, in years
// since the start: changes that have a date and are in force by then count,
// those that wait for a trigger do not. A stage that is not limited, or whose
// need is not known, is left out.
//
// It is arithmetic on full loads as in [Plant.StaticNeed], for cake at its mean
// solids content; with c kg dry of cake in a load, units u of a machine in
// working order, and open hours h of a mean day:
//
//	dewatering       rate × h
//	mixer            h / (batches × batch time + c / rate of dewatering) × c × u
//	vessels          u / days that a load takes of a vessel × c
//	aerated places   u / days that a load takes of a place × c
//	trucks           u × h / (3 moves) × c
//	loaders          u × h / (hours of mixing and screening a load) × c
//	operators        u × h / (hours of mixing, screening and 3 moves) × c
//	curing pad       room / need, in which lots lie as long as they must
//	screen           u × h × throughput / need
//	product demand   mean demand / need
//	chip deliveries  (most on order at once / lead time − biofilter media) / need
//
// What a time of waiting between stages costs is left out, but for the wait of
// vessels for working hours; so is what loads that comply late cost, and
// overtime gains.
func (p *Plant) Capacities(years float64, needs Needs) []Capacity {
	q := capacities{Plant: p.at(years), needs: needs}
	q.static = q.StaticNeed(years)
	var out []Capacity
	for stage, sustains := range [numStages]func() (float64, bool){
		AtDewatering: q.dewatering, AtMixer: q.mixer, AtVessels: q.vessels, AtPlaces: q.places, AtTrucks: q.trucks,
		AtLoaders: q.loaders, AtOperators: q.operators, AtPad: q.pad, AtScreen: q.screen, AtDemand: q.demand, AtDeliveries: q.deliveries,
	} {
		if dry, ok := sustains(); ok {
			out = append(out, Capacity{Stage: Stage(stage), CakeDry: dry})
		}
	}
	return out
}

// at returns the plant as dated changes will have made it by a time, in years
// since the start.
func (p *Plant) at(years float64) *Plant {
	q := *p
	clock := calendar.Clock{Start: p.Begin()}
	effect := func(c Change) sim.Time { return sim.Time(clock.SecondOf(c.Date)).Add(c.Lead) }
	by := sim.Time(clock.SecondOf(p.Start)).Add(sim.DurationOf(years * daysPerYear * float64(sim.Day)))
	dated := slices.DeleteFunc(slices.Clone(p.Changes), func(c Change) bool { return c.Trigger.Held > 0 || effect(c) > by })
	slices.SortStableFunc(dated, func(a, b Change) int { return int(effect(a) - effect(b)) })
	for i := range dated {
		q.alter(&dated[i])
	}
	return &q
}

// capacities is a plant at a time, with a full load.
type capacities struct {
	*Plant
	static Static
	needs  Needs
}

// movesPerLoad is how often a vessel is carried: to its place, to the tip floor,
// and back.
const movesPerLoad = 3

func (q capacities) dewatering() (float64, bool) {
	return q.Dewatering.Rate * q.openHours(q.Dewatering.Hours), q.Dewatering.Rate > 0
}

func (q capacities) mixer() (float64, bool) {
	hours := []*calendar.Work{q.Mixer.Hours}
	if q.Dewatering.Rate > 0 {
		hours = append(hours, q.Dewatering.Hours)
	}
	return q.Mixer.Failure.working(1) * q.openHours(hours...) / q.mixingHours() * q.static.LoadCakeDry, true
}

func (q capacities) vessels() (float64, bool) {
	taken, _ := q.daysTaken()
	up := 1.0
	if s := q.Vessels.Service; s.Every > 0 {
		// A vessel that is due waits for its load to be tipped out, in the mean
		// for half of the time that a load takes.
		up = max(0, 1-s.Takes.Days()/(s.Every.Days()+taken/2))
	}
	return up * float64(q.Vessels.Installed) / taken * q.static.LoadCakeDry, !q.Vessels.Unlimited
}

func (q capacities) places() (float64, bool) {
	_, taken := q.daysTaken()
	return float64(q.Yard.Places) / taken * q.static.LoadCakeDry, q.Yard.Places > 0
}

func (q capacities) trucks() (float64, bool) {
	if q.Yard.Trucks.Count == 0 || q.Yard.Move == 0 {
		return 0, false
	}
	return q.crew(q.Yard.Trucks, q.movingHours()), true
}

func (q capacities) loaders() (float64, bool) {
	if q.Yard.Loaders.Count == 0 {
		return 0, false
	}
	return q.crew(q.Yard.Loaders, q.mixingHours()+q.screeningHours()), true
}

func (q capacities) operators() (float64, bool) {
	if q.Yard.Operators.Count == 0 {
		return 0, false
	}
	return q.crew(q.Yard.Operators, q.mixingHours()+q.screeningHours()+q.movingHours()), true
}

func (q capacities) pad() (float64, bool) {
	return q.Curing.Capacity * over(q.needs.Pad), q.needs.Pad > 0
}

func (q capacities) screen() (float64, bool) {
	perDay := q.Screening.Failure.working(1) * q.openHours(q.Screening.Hours) * q.Screening.Settings.Capacity
	return perDay * over(q.needs.Screen), q.needs.Screen > 0
}

func (q capacities) demand() (float64, bool) {
	return mean(q.Product.Demand[:]) * over(q.needs.Product), q.needs.Product > 0
}

// deliveries: at the most everything up to the order-up-to level is on order, in
// whole truckloads, and arrives within the lead time.
func (q capacities) deliveries() (float64, bool) {
	c := q.Chips
	if c.LeadTime == 0 || q.needs.Chips == 0 {
		return 0, false
	}
	perDay := math.Floor(c.OrderUpTo/c.Truckload) * c.Truckload / c.LeadTime.Days()
	if q.Media.Every > 0 {
		perDay -= q.Media.Volume / q.Media.Every.Days()
	}
	return max(0, perDay) / q.needs.Chips, true
}

// crew returns what a crew sustains that each load keeps busy for some hours.
func (q capacities) crew(c Crew, hoursPerLoad float64) float64 {
	return c.Failure.working(c.Count) * q.openHours(q.Vessels.Hours) / hoursPerLoad * q.static.LoadCakeDry
}

// batches returns the number of batches in a full load.
func (q capacities) batches() float64 {
	return math.Ceil(max(q.static.LoadWet/q.Mixer.Scale, q.static.LoadVolume/q.Mixer.Volume) - 1e-9)
}

// The hours that a full load keeps a machine and its crew at work.

func (q capacities) mixingHours() float64 {
	return q.batches()*q.Mixer.BatchTime.Hours() + q.static.LoadCakeDry*over(q.Dewatering.Rate)
}

func (q capacities) screeningHours() float64 {
	return q.needs.Screen * q.static.LoadCakeDry / q.Screening.Settings.Capacity
}

func (q capacities) movingHours() float64 { return movesPerLoad * q.Yard.Move.Hours() }

// openHours returns the hours of a mean day at which all of some working hours
// are open, in the first reported year, holidays included.
func (m *Model) openHours(all ...*calendar.Work) float64 {
	first, last := m.firstYear()
	open := int64(0)
	for now := first; now < last; {
		from, to := now, last
		for _, w := range all {
			from, to = max(from, w.NextOpen(now)), min(to, w.NextClose(now))
		}
		if from == now {
			open += to - now
			from = to
		}
		now = from
	}
	return float64(open) / float64(last-first) * 24
}

// firstYear returns the seconds at which the first reported year begins and
// ends.
func (m *Model) firstYear() (first, last int64) {
	clock := calendar.Clock{Start: m.Begin()}
	return clock.SecondOf(m.Start), clock.SecondOf(m.Start.AddYears(1))
}

// daysTaken returns how long a load takes a vessel, until the next can be
// loaded, and an aerated place: the mean over loads that are begun at any hour
// of the mixer's. A load stays as long as it should, or, where loads may be
// released early, no longer than it must.
func (q capacities) daysTaken() (vessel, place float64) {
	stay := q.Vessels.Residence
	if q.Vessels.Early {
		stay = q.Vessels.Minimum
	}
	mixing := int64(sim.DurationOf(q.mixingHours() * secondsPerHour))
	first, last := q.firstYear()
	loads := 0.0
	for begun := first; begun < last; begun += int64(sim.Hour) {
		if !q.Mixer.Hours.IsOpen(begun) {
			continue
		}
		loads++
		full := q.Mixer.Hours.AddWork(begun, mixing)
		moved, aerated := full, full
		if q.hauled() {
			moved = q.Vessels.Hours.NextOpen(full)
			aerated = moved + int64(q.Yard.Move)
		}
		off := q.Vessels.Hours.NextOpen(aerated + int64(stay))
		empty := off + int64(q.Vessels.Turnaround)
		if q.hauled() {
			empty = q.Vessels.Hours.NextOpen(empty+int64(q.Yard.Move)) + int64(q.Yard.Move)
		}
		vessel += float64(q.Mixer.Hours.NextOpen(empty) - begun)
		place += float64(off - moved)
	}
	days := loads * float64(sim.Day)
	return vessel / days, place / days
}

// hauled reports whether moving a vessel takes anything.
func (m *Model) hauled() bool { return m.Yard.Trucks.Count > 0 || m.Yard.Move > 0 }

// working returns how many of n units work in the mean. A breakdown takes out
// one, if there is one left; the number that are out is that of Erlang's loss
// formula, by its usual recursion.
func (f Failure) working(n int) float64 {
	if f.Every == 0 {
		return float64(n)
	}
	offered := float64(f.Repair) / float64(f.Every)
	lost := 1.0
	for i := range n {
		lost = offered * lost / (float64(i+1) + offered*lost)
	}
	return float64(n) - offered*(1-lost)
}
