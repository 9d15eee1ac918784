package plant

import (
	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim"
)

// load is the content of one vessel and, after it is unloaded, one lot on the
// curing pad.
type load struct {
	number  uint64
	vessel  int
	plan    batchPlan
	batches int
	overdue bool // waited too long for its next batch

	readily   float64         // kg of rapidly or readily degradable solids loaded
	cakeDry   float64         // kg dry of cake mixed in
	chips     float64         // m3 mixed in
	cake      material.Solids // what is left of that cake, as it decays with the rest
	parcel    material.Parcel
	compliant sim.Duration // age at which all criteria of the vessel are met
	began     sim.Time     // of loading, composting or curing, whichever it is in
	course    process.Response
	since     sim.Time // when the course began
	until     sim.Time // when it ends, after which nothing changes; 0 if it goes on
	applied   float64  // hours of the course already applied
	begun     content  // at the beginning of the course
	given     given    // since then, and booked
	legs      []leg    // that follow
	ready     sim.Time // criteria met and residence over; cured
	failed    bool     // criteria not met, and not to be met
	misses    int      // the criterion that a failed load misses
	curing    curingPlan
	stay      sim.Duration // on the aerated place
	tipped    float64      // temperature at the end of it, °C
	volume    float64      // taken on the pad, m3
	dried     bool         // in the vessel, or not to be
	complied  bool         // so judged, before it was dried
	drying    sim.Duration // for which it is kept until dry, before it is ready
}

// vesselState is what a vessel is doing.
type vesselState int

const (
	vesselEmpty     vesselState = iota
	vesselLoading               // or full, until it is fetched
	vesselMoving                // to an aerated place
	vesselActive                // on an aerated place
	vesselLeaving               // on the way to the tip floor
	vesselTurning               // being emptied and inspected, and brought back
	vesselInService             // out of use for maintenance
	vesselOut                   // out of use, failed
)

type vessel struct {
	class int
	state vesselState
	since sim.Time // in use since
	load  *load
	// serviceAt is when maintenance is next due.
	serviceAt sim.Time
	turned    func() // what happens when it has been turned round; bound once
}

// newVessel puts one more vessel into use.
func (p *plant) newVessel(class int, serviceAt sim.Time) {
	v := len(p.vessels)
	p.vessels = append(p.vessels, vessel{class: class, serviceAt: serviceAt, turned: func() { p.turnedRound(v) }})
}

// rest returns an empty vessel to what it is between two loads, in the same class.
func (v *vessel) rest() { *v = vessel{class: v.class, serviceAt: v.serviceAt, turned: v.turned} }

// vesselFree reports whether a load could be begun in some vessel.
func (p *plant) vesselFree() bool { return p.vesselsEmpty() || p.Vessels.Unlimited }

// emptyVessel returns the lowest-numbered empty vessel of the class that is planned for,
// a new one if vessels are unlimited and none is empty.
func (p *plant) emptyVessel() int {
	for i := range p.vessels {
		if v := &p.vessels[i]; v.state == vesselEmpty && v.class == p.planned {
			return i
		}
	}
	p.newVessel(p.planned, 0)
	return len(p.vessels) - 1
}

// newLoad occupies an empty vessel for loading.
func (p *plant) newLoad(v int, plan batchPlan) *load {
	now := p.k.Now()
	p.loads++
	l := p.blankLoad()
	*l = load{}
	l.number, l.vessel, l.plan, l.began = p.loads, v, plan, now
	u := &p.vessels[v]
	u.state, u.since, u.load = vesselLoading, now, l
	p.stations.vessels.entered(now, 1)
	p.vesselsInUse(p.vessels[v].class, 1)
	return l
}

// blankLoad returns a record to be filled: that of a load that is gone, if there is
// one. There are thousands in a run, and a few dozen at a time, which then stay where
// the processor has them at hand.
func (p *plant) blankLoad() *load {
	last := len(p.spare) - 1
	if last < 0 {
		return new(load)
	}
	l := p.spare[last]
	p.spare = p.spare[:last]
	return l
}

// discard gives back the record of a load that is gone. Events that are still to come
// must not know a load by its record alone, but by its number.
func (p *plant) discard(l *load) { p.spare = append(p.spare, l) }

// closeVessel ends loading: the vessel is ready to be fetched.
func (p *plant) closeVessel(l *load) {
	p.loading = nil
	p.full = append(p.full, l)
	l.ready = p.k.Now()
	p.month.Loads.Filled++
	p.month.Loads.Wet += l.parcel.Total()
	p.month.Loads.Dry += l.parcel.Dry()
	p.month.Loads.Volatile += l.parcel.Volatile()
	p.month.Loads.CakeVolatile += l.cake.Volatile()
	p.month.Loads.Moisture += l.parcel.Moisture()
	p.filled(l)
}

// advance brings a load's parcel up to now along its course.
func (p *plant) advance(l *load, air airPaths) {
	for len(l.legs) > 0 && l.legs[0].from <= p.k.Now() {
		p.advanceTo(l, l.legs[0].from, air)
		l.begin(&l.legs[0])
		l.legs = l.legs[1:]
	}
	p.advanceTo(l, p.k.Now(), air)
}

// advanceTo brings a load's parcel to an instant along the course that it is on.
func (p *plant) advanceTo(l *load, t sim.Time, air airPaths) {
	if l.until > 0 {
		t = min(t, l.until)
	}
	hours := t.Sub(l.since).Hours()
	if hours <= l.applied {
		return
	}
	g := l.bring(hours, &p.Chemistry)
	e := &g.air
	p.exchange(air, *e, l.number)
	p.month.Losses.CarbonDioxide += e.CO2
	p.month.Work.BlowerEnergy += g.energy
	p.month.Losses.Vapour += e.Vapour
	p.month.Losses.Leachate += e.Leachate
	p.month.Losses.Ammonia += e.NH3
	if air == p.books.vesselAir {
		p.month.Losses.VesselAmmonia += e.NH3
	}
	p.month.Losses.Oxidised += e.Volatile
	p.month.Losses.OxidisedCake += g.cake
}

// empty tips a vessel out: to the pad or, failed, off the site.
func (p *plant) empty(l *load) {
	v, kind := l.vessel, p.kindOf(l)
	p.vessels[v].state, p.vessels[v].load = vesselTurning, nil
	p.month.Release.Loads++
	p.month.Release.Residence += l.stay.Days()
	p.month.Drying.Days += l.drying.Days()
	p.month.Release.Moisture += l.parcel.Moisture()
	if l.failed {
		p.month.Release.Failed++
		p.rec.FailedBy[l.misses]++
		p.month.Release.FailedDry += l.parcel.Dry()
		p.month.Release.FailedCakeDry += l.cakeDry
		p.month.Chips.Lost += l.chips
		p.move(p.books.divertedLoads, &l.parcel, l.number)
		p.discard(l)
	} else {
		if l.stay < kind.residence {
			p.month.Release.Early++
		}
		if l.compliant > kind.residence {
			p.month.Release.Late++
		}
		p.move(p.books.vesselToPad, &l.parcel, l.number)
		p.receive(l)
	}
	p.k.After(kind.turnaround, "vessel turned round", p.vessels[v].turned)
}

// turnedRound ends the emptying and inspection of a vessel.
func (p *plant) turnedRound(v int) {
	if p.hauled() {
		p.emptied = append(p.emptied, v)
	} else {
		p.vesselBack(v)
	}
	p.settle()
}

// releaseEarly makes the oldest load due that has stayed its minimum and met
// its criteria, when loads wait and no vessel is about to become empty. Of loads in
// vessels of several classes the oldest is the one whose minimum is over first.
func (p *plant) releaseEarly() {
	if !p.Vessels.Early {
		return
	}
	for i := range p.vessels {
		if s := p.vessels[i].state; s == vesselLeaving || s == vesselTurning {
			return
		}
	}
	now := p.k.Now()
	for _, l := range p.active {
		if l.ready <= now {
			return // one is about to leave anyway
		}
	}
	first := p.oldest()
	if first == nil {
		return
	}
	if from := first.began.Add(max(p.kindOf(first).minimum, first.compliant)); from <= now {
		p.cutDrying(first)
		first.ready = now
		p.due.expect(now)
		p.again = true
	} else {
		p.alarms.early.set(from)
	}
}

// oldest returns the load whose shortest residence is over first, of those that have not
// failed; nil if there is none.
func (p *plant) oldest() (first *load) {
	over := func(l *load) sim.Time { return l.began.Add(p.kindOf(l).minimum) }
	for _, l := range p.active { // the one that was loaded first comes first
		if !l.failed && (first == nil || over(l) < over(first)) {
			first = l
		}
	}
	return first
}

// vesselsHold returns what is in all vessels.
func (p *plant) vesselsHold() material.Parcel {
	var sum material.Parcel
	for i := range p.vessels {
		if l := p.vessels[i].load; l != nil {
			sum.Mix(&l.parcel)
		}
	}
	return sum
}
