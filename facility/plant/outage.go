package plant

import (
	"errors"
	"fmt"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Outage is vessels that fail and are repaired. On its date so many of a class fail:
// empty ones first, then whichever stand empty next, emptied or come out of maintenance.
// Each is out of use for the whole time, counted from when it stands empty: all of the
// time is lost to the plant, which leans to the side that warns. Of more vessels than
// there are all fail; one that has failed cannot fail once more.
//
// What is in a vessel that fails composts to its end, for most of what puts a vessel out
// (floor, lining, doors, fan) is found when it is empty or can wait until it is. A load
// that is lost as well is no more than that load, and is not simulated.
//
// An outage that began before the run takes what is left of its time. Maintenance that
// falls due meanwhile stays due. A plant with unlimited vessels has another for each that
// fails, and so loses nothing.
type Outage struct {
	Date    calendar.Date
	For     sim.Duration
	Vessels int
	Class   int // by place in [Vessels.Classes]
}

func (m *Model) validateOutages() error {
	var errs []error
	for _, o := range m.Outages {
		switch {
		case !o.Date.Valid():
			errs = append(errs, errors.New("an outage needs a date"))
		case o.For <= 0 || o.Vessels < 1:
			errs = append(errs, fmt.Errorf("the outage of %v needs a time and a number of vessels", o.Date))
		case o.Class < 0 || o.Class >= m.Vessels.ClassCount():
			errs = append(errs, fmt.Errorf("the outage of %v: there is no class %d of vessels", o.Date, o.Class))
		}
	}
	return errors.Join(errs...)
}

// awaited is a vessel that has failed and does not stand empty yet.
type awaited struct {
	class int
	takes sim.Duration
}

// scheduleOutages plans all outages.
func (p *plant) scheduleOutages() {
	if p.Vessels.Unlimited {
		return
	}
	for _, o := range p.Outages {
		at := sim.Time(p.k.Clock().SecondOf(o.Date))
		if at < 0 {
			o.For += sim.Duration(at)
			at = 0
		}
		if o.For <= 0 {
			continue // over before the run
		}
		p.k.AtPriority(at, sim.Early, "vessels fail", func() {
			p.syncHolding()
			p.fail(o)
			p.settle()
		})
	}
}

// fail takes the vessels of an outage out of use, or waits for them.
func (p *plant) fail(o Outage) {
	left, working := o.Vessels, 0
	for i := range p.vessels {
		switch v := &p.vessels[i]; {
		case v.class != o.Class || v.state == vesselOut:
		case v.state == vesselEmpty && left > 0:
			p.takeOut(i, o.For)
			left--
		default:
			working++
		}
	}
	for _, a := range p.failed {
		if a.class == o.Class {
			working--
		}
	}
	for range min(left, working) {
		p.failed = append(p.failed, awaited{o.Class, o.For})
	}
}

// takeOut puts an empty vessel out of use for a time.
func (p *plant) takeOut(v int, takes sim.Duration) {
	p.vessels[v].state = vesselOut
	p.k.After(takes, "vessel repaired", func() {
		p.vessels[v].state = vesselEmpty
		p.standsEmpty(v)
		p.settle()
	})
}

// standsEmpty takes a vessel that has become empty out of use if one of its class has
// failed, and reports whether it did.
func (p *plant) standsEmpty(v int) bool {
	for i, a := range p.failed {
		if a.class == p.vessels[v].class {
			p.failed = append(p.failed[:i], p.failed[i+1:]...)
			p.takeOut(v, a.takes)
			return true
		}
	}
	return false
}
