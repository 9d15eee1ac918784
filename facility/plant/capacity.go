package plant

import (
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
	AtDrying
	AtAmendments
	numStages
)

// StageNames names the stages in plain words.
var StageNames = [numStages]string{
	"dewatering", "mixer", "vessels", "aerated places", "trucks", "loaders", "operators",
	"curing pad", "screen", "product demand", "chip deliveries", "drying on the pad", "amendments",
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
// compost or product, and of fresh chips. Only a run can tell, as all depends on
// the chips that come round: wetter and denser than fresh ones, they may leave
// a tenth less room for cake in a vessel. What is 0 is not known.
type Needs struct {
	Payload float64 // of a vessel, kg wet of mix
	Volume  float64 // of a vessel, m3 of mix
	Pad     float64 // of the curing pad, m3 × days
	Screen  float64 // m3 on the screen, as MonthlyScreen.Work counts it
	Product float64 // m3
	Chips   float64 // fresh, m3
	Drying  float64 // of the curing pad, for lots kept until they are dry, m3 × days; part of Pad
	// InVessel is how long a load stays longer in its vessel to be dried, days.
	InVessel float64
}

// Plus returns the sum of two needs.
func (n Needs) Plus(o Needs) Needs {
	return Needs{
		Payload: n.Payload + o.Payload, Volume: n.Volume + o.Volume, Pad: n.Pad + o.Pad, Screen: n.Screen + o.Screen,
		Product: n.Product + o.Product, Chips: n.Chips + o.Chips, Drying: n.Drying + o.Drying, InVessel: n.InVessel + o.InVessel,
	}
}

// Times returns needs scaled by a factor.
func (n Needs) Times(f float64) Needs {
	return Needs{
		Payload: f * n.Payload, Volume: f * n.Volume, Pad: f * n.Pad, Screen: f * n.Screen,
		Product: f * n.Product, Chips: f * n.Chips, Drying: f * n.Drying, InVessel: f * n.InVessel,
	}
}

// NeedsOf returns the needs that the months of one or more records show.
func NeedsOf(months []Month) Needs {
	sum := func(of func(*Month) float64) float64 { return Sum(months, of) }
	mixed := over(sum(func(m *Month) float64 { return m.Mixing.CakeDry }))
	return Needs{
		Payload: mixed * sum(func(m *Month) float64 { return m.Mixing.Wet }),
		Volume:  mixed * sum(func(m *Month) float64 { return m.Mixing.Volume }),
		Pad: sum(func(m *Month) float64 { return m.Curing.Room }) *
			over(sum(func(m *Month) float64 { return m.Curing.CakeDry })),
		Screen: sum(func(m *Month) float64 { return m.Screen.Work }) *
			over(sum(func(m *Month) float64 { return m.Screen.CakeDry })),
		Product: sum(func(m *Month) float64 { return m.Product.Volume }) *
			over(sum(func(m *Month) float64 { return m.Product.CakeDry })),
		Chips: mixed * sum(func(m *Month) float64 { return m.Chips.FreshUsed }),
		Drying: sum(func(m *Month) float64 { return m.Drying.Room }) *
			over(sum(func(m *Month) float64 { return m.Curing.CakeDry })),
		InVessel: sum(func(m *Month) float64 { return m.Drying.Days }) *
			over(sum(func(m *Month) float64 { return m.Release.Loads })),
	}
}

// Capacities returns what each stage could sustain alone on a day: changes that
// have a date and are in force when it begins count, those that wait for a
// trigger do not. A stage that is not limited, or whose need is not known, is
// left out.
//
// It is arithmetic on full loads of the mix that needs tell of, or, before any
// cake is mixed, on the load of [Plant.StaticNeed]. With c kg dry of cake in a
// load and c/n in each of its n batches, u machines in working order, open hours
// h and jobs begun in them j per mean day:
//
//	dewatering       j × c/n, for jobs as long as the rate makes a batch
//	mixer            u/m × j × c/r, for jobs of batch time and dewatering; m mixers fill a load
//	                 in the time of r jobs one after the other
//	vessels          u / days that a load takes of a vessel × c
//	aerated places   u / days that a load takes of a place × c
//	trucks           u × j / 3 moves × c
//	loaders          u × h / hours of mixing and screening a load × c
//	operators        u × h / hours of mixing, screening and 3 moves × c
//	curing pad       room / need; lots lie as long as they must
//	screen           u × h × throughput / need
//	product demand   mean demand / need
//	drying           room of the pad / what drying needs of it
//	chip deliveries  (most on order at once / lead time − biofilter media) / need
//	amendments       (most on order at once / lead time + own sources) / ratio, of those that mixing waits for
//
// Time lost between stages is left out, but for what vessels wait for working
// hours; so are loads that stay longer to comply.
func (p *Plant) Capacities(on calendar.Date, needs Needs) []Capacity {
	q := capacities{Plant: p.AsOf(on), needs: needs}
	q.Vessels = q.MeanVessels()
	q.load = q.usualLoad()
	var out []Capacity
	for stage, sustains := range [numStages]func() (float64, bool){
		AtDewatering: q.dewatering, AtMixer: q.mixer, AtVessels: q.vessels, AtPlaces: q.places, AtTrucks: q.trucks,
		AtLoaders: q.loaders, AtOperators: q.operators, AtPad: q.pad, AtScreen: q.screen, AtDemand: q.demand, AtDeliveries: q.deliveries,
		AtDrying: q.drying, AtAmendments: q.amendments,
	} {
		if dry, ok := sustains(); ok {
			out = append(out, Capacity{Stage: Stage(stage), CakeDry: dry})
		}
	}
	return out
}

// CapacityByClass returns what the vessels of each class could sustain on a day, as
// [Plant.Capacities] has it, of loads that stay as long as is aimed at: kg dry of cake per
// day, feedstocks included.
func (p *Plant) CapacityByClass(on calendar.Date, needs Needs) []float64 {
	q := capacities{Plant: p.AsOf(on), needs: needs}
	out := make([]float64, q.Vessels.ClassCount())
	for i := range out {
		one := q.ofClass(i)
		out[i] = one.sustained(one.staysFor())
	}
	return out
}

// sustained is what vessels of one class sustain of loads that stay for some time.
func (q capacities) sustained(stay sim.Duration) float64 {
	taken, _ := q.daysTaken(stay)
	return q.inService() / taken * q.load.cakeDry
}

// AsOf returns the plant as dated changes will have made it when a day begins.
func (p *Plant) AsOf(day calendar.Date) *Plant {
	q := *p
	effect := func(c Change) calendar.Date { return c.Lead.After(c.Date) }
	dated := slices.DeleteFunc(slices.Clone(p.Changes), func(c Change) bool { return c.Trigger.Waits() || day.Before(effect(c)) })
	slices.SortStableFunc(dated, func(a, b Change) int { return effect(b).DaysUntil(effect(a)) })
	for i := range dated {
		q.alter(&dated[i])
	}
	return &q
}

// capacities is a plant at a time, with a full load.
type capacities struct {
	*Plant
	needs Needs
	load  fullLoad
}

// fullLoad is a full vessel: its batches, and the cake in all of them, kg dry; and those
// of each class, where it is the mean of several.
type fullLoad struct {
	batches, cakeDry float64
	byClass          []fullLoad
}

// usualLoad returns a full load, in the mean of the classes of vessels.
func (q capacities) usualLoad() fullLoad {
	if len(q.Vessels.Classes) > 0 {
		var mean fullLoad
		for i, part := range q.ByLoads() {
			one := q.ofClass(i).load
			mean.batches += part * one.batches
			mean.cakeDry += part * one.cakeDry
			mean.byClass = append(mean.byClass, one)
		}
		return mean
	}
	parcel, cakeDry := q.typicalLoad()
	wet, volume := parcel.Total(), q.Bulk.Volume(parcel)
	if q.needs.Payload > 0 && q.needs.Volume > 0 {
		cakeDry = min(q.Vessels.Payload/q.needs.Payload, q.Vessels.Volume/q.needs.Volume)
		wet, volume = cakeDry*q.needs.Payload, cakeDry*q.needs.Volume
	}
	return fullLoad{batches: q.Mixer.Batches(wet, volume), cakeDry: cakeDry}
}

// movesPerLoad is how often a vessel is carried: to its place, to the tip floor,
// and back.
const movesPerLoad = 3

func (q capacities) dewatering() (float64, bool) {
	if q.Dewatering.Rate == 0 {
		return 0, false
	}
	return q.jobsPerDay(q.dewateringHours()/q.load.batches, q.Dewatering.Hours) * q.load.cakeDry / q.load.batches, true
}

func (q capacities) mixer() (float64, bool) {
	hours := []*calendar.Work{q.Mixer.Hours}
	if q.Dewatering.Rate > 0 {
		hours = append(hours, q.Dewatering.Hours)
	}
	n := q.Mixer.Units()
	perDay := q.Mixer.Failure.working(n) / float64(n) * q.jobsPerDay(q.mixingHours()/q.load.batches, hours...)
	return perDay * q.load.cakeDry / q.rounds(n), true
}

// ofClass is the plant with the vessels of one class and no others.
func (q capacities) ofClass(class int) capacities {
	one := *q.Plant
	one.Model = q.AsClass(class)
	out := capacities{Plant: &one, needs: q.needs}
	out.load = out.usualLoad()
	return out
}

// vessels of several classes sustain what each class does. Early releases are one at a
// time in the whole plant.
func (q capacities) vessels() (float64, bool) {
	if len(q.Vessels.Classes) > 0 {
		perDay, early := 0.0, 0.0
		for i := range q.Vessels.Classes {
			one := q.ofClass(i)
			perDay += one.sustained(one.staysFor())
			early += one.sustained(one.Vessels.Minimum)
		}
		if q.Vessels.Early {
			perDay = max(perDay, min(early, q.load.cakeDry/q.turnedRound().Days()))
		}
		return perDay, !q.Vessels.Unlimited
	}
	return q.inPlaces(q.inService(), func(vessel, _ float64) float64 { return vessel }), !q.Vessels.Unlimited
}

// inService returns how many vessels are there in the mean, maintenance apart.
func (q capacities) inService() float64 {
	up := 1.0
	if s := q.Vessels.Service; s.Every > 0 {
		// A vessel that is due waits for its load to be tipped out, in the mean
		// for half of the time that a load takes.
		taken, _ := q.daysTaken(q.staysFor())
		up = max(0, 1-s.Takes.Days()/(s.Every.Days()+taken/2))
	}
	return up * float64(q.Vessels.Installed)
}

func (q capacities) places() (float64, bool) {
	up := 1.0
	if s := q.Yard.PlaceService; s.Every > 0 {
		up = s.Every.Days() / (s.Every + s.Takes).Days()
	}
	return q.inPlaces(up*float64(q.Yard.Places), func(_, place float64) float64 { return place }), q.Yard.Places > 0
}

// inPlaces returns what n vessels or aerated places sustain, each taken by a
// load for some days. Where loads may be released early, it is one at a time: the
// next leaves when the vessel of the last has been turned round.
func (q capacities) inPlaces(n float64, of func(vessel, place float64) float64) float64 {
	perDay := n / of(q.daysTaken(q.staysFor()))
	if turn := q.turnedRound().Days(); q.Vessels.Early {
		perDay = max(perDay, min(n/of(q.daysTaken(q.Vessels.Minimum)), 1/turn))
	}
	return perDay * q.load.cakeDry
}

func (q capacities) trucks() (float64, bool) {
	t := q.Yard.Trucks
	if t.Count == 0 || q.Yard.Move == 0 {
		return 0, false
	}
	perDay := t.Failure.working(t.Count) * q.jobsPerDay(q.Yard.Move.Hours(), q.Vessels.Hours)
	return perDay / movesPerLoad * q.load.cakeDry, true
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

func (q capacities) drying() (float64, bool) {
	return q.Curing.Capacity * over(q.needs.Drying), q.needs.Drying > 0
}

// staysFor returns how long a load stays that is not released early: the residence,
// and what it is dried for after it.
func (q capacities) staysFor() sim.Duration {
	return q.Vessels.Residence + sim.DurationOf(q.needs.InVessel*float64(sim.Day))
}

func (q capacities) screen() (float64, bool) {
	perDay := q.Screening.Failure.working(q.Screening.Units()) * q.openHours(q.Screening.Hours) * q.Screening.Settings.Capacity
	return perDay * over(q.needs.Screen), q.needs.Screen > 0
}

func (q capacities) demand() (float64, bool) {
	return mean(q.Product.Demand[:]) * over(q.needs.Product), q.needs.Product > 0
}

func (q capacities) deliveries() (float64, bool) {
	buying := q.Chips.Ordering()
	perDay, limited := buying.mostPerDay()
	if most, ok := q.Chips.mostPerMonth(); ok && (!limited || most < perDay) {
		perDay, limited = most, true
	}
	if !limited || q.needs.Chips == 0 {
		return 0, false
	}
	perDay += q.Chips.own()
	if q.Media.Every > 0 {
		perDay -= q.Media.Volume / q.Media.Every.Days()
	}
	return max(0, perDay) / q.needs.Chips, true
}

// crew returns what a crew sustains that each load keeps busy for some hours.
func (q capacities) crew(c Crew, hoursPerLoad float64) float64 {
	return c.Failure.working(c.Count) * q.openHours(q.Vessels.Hours) / hoursPerLoad * q.load.cakeDry
}

// The hours that a full load keeps a machine and its crew at work.

func (q capacities) mixingHours() float64 {
	return q.load.batches*q.Mixer.BatchTime.Hours() + q.dewateringHours()
}

func (q capacities) dewateringHours() float64 { return q.load.cakeDry * over(q.Dewatering.Rate) }

func (q capacities) screeningHours() float64 {
	return q.needs.Screen * q.load.cakeDry / q.Screening.Settings.Capacity
}

func (q capacities) movingHours() float64 { return movesPerLoad * q.Yard.Move.Hours() }

// daysTaken returns how long a load that stays for some time takes a vessel,
// until the next can be loaded, and an aerated place: the mean over loads begun
// at any hour of the mixer's.
func (q capacities) daysTaken(stay sim.Duration) (vessel, place float64) {
	mixing := int64(sim.DurationOf(q.fillingHours() * secondsPerHour))
	first, last := q.firstYear()
	loads := 0.0
	for begun := first; begun < last; begun += int64(sim.Hour) {
		if !q.Mixer.Hours.IsOpen(begun) {
			continue
		}
		loads++
		fetched := q.Mixer.Hours.AddWork(begun, mixing)
		if q.hauled() {
			fetched = q.Vessels.Hours.NextOpen(fetched)
		}
		off := q.Vessels.Hours.NextOpen(fetched + int64(q.Yard.Move+stay))
		emptied := off + int64(q.Yard.Move+q.Vessels.Turnaround)
		if q.hauled() {
			emptied = q.Vessels.Hours.NextOpen(emptied) + int64(q.Yard.Move)
		}
		vessel += float64(q.Mixer.Hours.NextOpen(emptied) - begun)
		place += float64(off - fetched)
	}
	days := loads * float64(sim.Day)
	return vessel / days, place / days
}

// turnedRound returns how long a vessel is away from where it is loaded, working
// hours aside.
func (q capacities) turnedRound() sim.Duration { return q.Vessels.Turnaround + 2*q.Yard.Move }
