package plant

import (
	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Use is how a resource spent a span of time, in unit-hours: scheduled by its working
// hours; busy, which is at work within them; overtime, at work outside of them, to
// finish what was begun; and out of order at any hour. A lot that rests on the screen
// overnight, or a batch that waits in a broken mixer, is no work, neither of the
// machine nor of its crew, though it occupies them. So busy is never above scheduled.
type Use struct{ Scheduled, Busy, Overtime, Down float64 }

// useMeter measures the use of a resource.
type useMeter struct {
	month     Use      // until it was last brought up to date
	scheduled sim.Time // until when Scheduled is counted
	down      float64  // unit-hours until the last month's end

	// Of resources of which there are always enough.
	busy  int
	since sim.Time // since when so many are busy
}

// atWorkWith are a machine at work and the crews that it keeps at work, one of each.
var atWorkWith = [numResources][]Resource{
	Mixers:  {Mixers, Loaders, Operators},
	Screens: {Screens, Loaders, Operators},
	Trucks:  {Trucks, Operators},
}

// atWork books a span in which some units of a machine, one at least, were occupied. Crews are
// booked with the machines that they serve: while these rest, a crew that is bound to
// them rests too.
func (p *plant) atWork(machine Resource, from, to sim.Time, units int) {
	var both [2]*calendar.Work
	running := both[:0]
	if machine == Screens { // what is on it pauses
		running = append(running, p.resources[machine].hours)
	}
	ran := openWithin(from, to, running...)
	var hours *calendar.Work // those of the last one: most keep the same
	var busy, overtime float64
	for _, who := range atWorkWith[machine] {
		r := p.resources[who]
		if r.hours != hours {
			hours = r.hours
			onShift := openWithin(from, to, append(running, hours)...)
			busy, overtime = float64(units)*onShift.Hours(), float64(units)*(ran-onShift).Hours()
		}
		r.meter.month.Busy += busy
		r.meter.month.Overtime += overtime
	}
}

// openWithin returns the time within a span in which all of some working hours are
// open.
func openWithin(from, to sim.Time, all ...*calendar.Work) sim.Duration {
	switch len(all) {
	case 0:
		return to.Sub(from)
	case 1:
		return sim.Duration(all[0].Between(int64(from), int64(to)))
	}
	open := int64(0)
	eachOpen(int64(from), int64(to), all, func(seconds int64) { open += seconds })
	return sim.Duration(open)
}

// countUnlimited books what the busy units of a resource of which there are always
// enough did, and changes their number.
func (p *plant) countUnlimited(which Resource, change int) {
	m := &p.resources[which].meter
	if m.busy > 0 {
		p.atWork(which, m.since, p.k.Now(), m.busy)
	}
	m.since = p.k.Now()
	m.busy += change
}

// accountUse brings the meters up to date, as at a month's end or before hours or
// numbers change.
func (p *plant) accountUse() {
	now := p.k.Now()
	for which, r := range p.resources {
		if !r.limited {
			p.countUnlimited(Resource(which), 0)
			continue
		}
		r.Account()
		m := &r.meter
		m.month.Scheduled += float64(r.Capacity()) * openWithin(m.scheduled, now, r.hours).Hours()
		m.scheduled = now
	}
}

// resourceUse returns what each resource did since the last call.
func (p *plant) resourceUse() (use [numResources]Use) {
	p.accountUse()
	const hour = float64(sim.Hour)
	for i, r := range p.resources {
		m := &r.meter
		if r.limited {
			down := r.DownLevel().Area(int64(p.k.Now())) / hour
			m.month.Down, m.down = down-m.down, down
			use[i] = m.month
		}
		m.month = Use{}
	}
	return use
}
