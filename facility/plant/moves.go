package plant

import (
	"fmt"

	"loamcast/facility/release"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// The way of a vessel: loaded at the mixer, carried to an aerated place, and,
// when its load is due, to the tip floor; emptied and inspected there; carried
// back. Without trucks and moves that take time it stands where it is.

// hauled reports whether moving a vessel takes anything.
func (m *Model) hauled() bool { return m.Yard.Trucks.Count > 0 || m.Yard.Move > 0 }

// mayHaul reports whether a move could begin now.
func (p *plant) mayHaul() bool {
	return !p.hauled() || p.open(p.Vessels.Hours, &p.alarms.vessels) && p.crewFree(Trucks, Operators)
}

// haul carries a vessel, and calls arrived with what is carried, a load or an empty
// vessel's number, when it is there.
func haul[T any](p *plant, what T, arrived func(*plant, T)) {
	if !p.hauled() {
		arrived(p, what)
		return
	}
	p.month.Vessels.Moves++
	p.month.Work.OperatorHours += p.Yard.Move.Hours()
	p.holdCrew(Operators)
	p.work(Trucks, p.Yard.Move, "vessel moved", func() {
		p.releaseCrew(Operators)
		arrived(p, what)
		p.settle()
	})
}

// loadingPlaceFree reports whether a vessel can stand at the mixer.
func (p *plant) loadingPlaceFree() bool {
	return p.Yard.LoadingPlaces == 0 || len(p.full) < p.Yard.LoadingPlaces
}

// toPlace carries the first full vessel to an aerated place.
func (p *plant) toPlace() bool {
	if len(p.full) == 0 || !p.placeFree() || !p.mayHaul() {
		return false
	}
	l := p.full[0]
	p.full = append(p.full[:0], p.full[1:]...)
	p.endWait(l)
	p.placesTaken++
	p.vessels[l.vessel].state = vesselMoving
	haul(p, l, (*plant).aerate)
	return true
}

// aerate starts the process on an aerated place.
func (p *plant) aerate(l *load) { p.compost(l, p.k.Now(), p.dateNow()) }

// compost puts a load on the course of one that began at an instant, now or before the
// run, in the weather of a day. It reports whether there is such a course.
func (p *plant) compost(l *load, began sim.Time, day calendar.Date) bool {
	kind := p.kindOf(l)
	courses := p.airOn(day).kinds[p.vessels[l.vessel].class].courses
	if err := courses.Of(&l.course, &l.parcel, day.Month); err != nil {
		p.k.Fail(fmt.Errorf("load %d: %w", l.number, err))
		return false
	}
	p.vessels[l.vessel].state = vesselActive
	p.active = append(p.active, l)
	l.began = began
	l.follow(began, 0)
	l.readily = l.parcel.Degradable()
	due := kind.residence
	p.evidence = evidence{plant: p, kind: kind, vessel: &l.course}
	d := release.InVessel(p.Active.Criteria, &p.evidence)
	l.compliant, l.misses = durationOf(d.Until), d.Criterion
	if l.failed = d.Action == release.Fail; l.failed {
		due = kind.maximum
	}
	l.ready = max(p.k.Now(), began.Add(max(due, l.compliant)))
	p.due.expect(l.ready)
	p.k.At(l.ready, "load due", p.wake)
	return true
}

// takeOff carries the first load that is due to the tip floor, if the pad has
// room for it. The room is taken when the vessel leaves its place.
func (p *plant) takeOff() bool {
	now := p.k.Now()
	if p.due.after(now) {
		return false
	}
	for i, l := range p.active {
		if l.ready > now {
			continue
		}
		if !p.open(p.Vessels.Hours, &p.alarms.vessels) || !p.mayHaul() {
			return false
		}
		p.advance(l, p.books.vesselAir)
		if !l.failed && !p.assured(l) {
			continue
		}
		if p.dryInVessel(l) {
			continue
		}
		if !l.failed && !p.padTakes(l) {
			// The pad's room changes only when something else happens.
			return false
		}
		p.active = append(p.active[:i], p.active[i+1:]...)
		p.endWait(l)
		l.stay = now.Sub(l.began)
		p.depart(l)
		p.leavePlace()
		if !l.failed {
			l.volume = p.volumeToCure(l)
			p.pad.volume += l.volume
			p.month.Curing.PadPeak = max(p.month.Curing.PadPeak, p.pad.volume)
		}
		p.vessels[l.vessel].state = vesselLeaving
		haul(p, l, (*plant).empty)
		return true
	}
	return false
}

// bringBack carries the first emptied vessel back to be loaded.
func (p *plant) bringBack() bool {
	if len(p.emptied) == 0 || !p.mayHaul() {
		return false
	}
	v := p.emptied[0]
	p.emptied = append(p.emptied[:0], p.emptied[1:]...)
	haul(p, v, (*plant).vesselBack)
	return true
}

// vesselBack makes a vessel available, or sends it to repair if it has failed, or to
// maintenance when that is due.
func (p *plant) vesselBack(v int) {
	now := p.k.Now()
	p.stations.vessels.left(now, 1, now.Sub(p.vessels[v].since))
	p.vesselsInUse(p.vessels[v].class, -1)
	next := p.vessels[v].serviceAt
	p.vessels[v].rest()
	if p.standsEmpty(v) || p.Vessels.Service.Every == 0 || now < next {
		return
	}
	p.vessels[v].serviceAt = now.Add(p.Vessels.Service.Every)
	p.vessels[v].state = vesselInService
	p.k.After(p.Vessels.Service.Takes, "vessel serviced", func() {
		p.vessels[v].state = vesselEmpty
		p.standsEmpty(v)
		p.settle()
	})
}

// firstService spreads the first maintenance of n vessels over one interval.
func (m Maintenance) firstService(now sim.Time, i, n int) sim.Time {
	return now.Add(m.Every * sim.Duration(i+1) / sim.Duration(n))
}
