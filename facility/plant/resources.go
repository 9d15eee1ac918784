package plant

import (
	"errors"
	"fmt"

	"loamcast/sim"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Failure describes breakdowns: exponential times between them, by the
// calendar, and exponential repairs. No Every means that it never breaks down.
type Failure struct {
	Every, Repair sim.Duration // means
}

// Crew is a number of equal machines or people. None set means that there are
// always enough.
type Crew struct {
	Count   int
	Failure Failure
}

// Yard is what moves vessels and who works there.
type Yard struct {
	// Trucks carry vessels: full to an aerated place, due to the tip floor,
	// empty back. A move takes Move; without trucks and Move vessels stand where
	// they are loaded.
	Trucks Crew
	Move   sim.Duration
	// Places are aerated places, and LoadingPlaces those at the mixer, where a
	// full vessel stands until it is fetched; 0 means that there are enough.
	Places, LoadingPlaces int
	PlaceService          Maintenance // of aerated places, where they are counted
	// Loaders and Operators are needed for every batch and every lot screened;
	// a move needs an operator.
	Loaders, Operators Crew
}

// Maintenance takes a vessel out of use when it is next empty, Every so often,
// for Takes. The vessels take turns. No Every means none.
type Maintenance struct {
	Every, Takes sim.Duration
}

func (y Yard) validate() error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(y.Move >= 0, "a move cannot take negative time")
	check(y.Places >= 0 && y.LoadingPlaces >= 0, "the number of places cannot be negative")
	check(y.PlaceService.Every >= 0 && y.PlaceService.Takes >= 0, "the maintenance of places cannot take negative time")
	for _, c := range []struct {
		name string
		Crew
	}{{"trucks", y.Trucks}, {"loaders", y.Loaders}, {"operators", y.Operators}} {
		check(c.Count >= 0, "the number of %s cannot be negative", c.name)
		errs = append(errs, c.Failure.validate(c.name))
	}
	return errors.Join(errs...)
}

func (f Failure) validate(name string) error {
	if f.Every < 0 || f.Repair < 0 || f.Every > 0 && f.Repair == 0 {
		return fmt.Errorf("breakdowns of %s need a time between them and a time to repair", name)
	}
	return nil
}

// Resource is a kind of machine or crew.
type Resource int

// The resources, in the order in which they are reported.
const (
	Mixers Resource = iota
	Screens
	Trucks
	Loaders
	Operators
	numResources
)

// ResourceNames names the resources in plain words.
var ResourceNames = [numResources]string{"mixer", "screen", "truck", "loader", "operator"}

// resource is a machine or crew of a running plant.
type resource struct {
	*sim.Server
	name    string
	limited bool // false: there are always enough
	failure Failure
	hours   *calendar.Work
	meter   useMeter
}

// newResource makes a resource and schedules its first breakdown. What is under way
// stops when the resource breaks down and goes on after the repair. At the shift's
// end a screen stops in the middle of a lot; all other work is finished.
func (p *plant) newResource(which Resource, c Crew, hours *calendar.Work, shift sim.ShiftRule) *resource {
	name := ResourceNames[which]
	r := &resource{name: name, limited: c.Count > 0, failure: c.Failure, hours: hours}
	if !r.limited {
		return r
	}
	failures := uint64(0)
	r.Server = sim.NewServer(p.k, sim.ServerConfig{
		Name: name, Capacity: c.Count, Calendar: hours, Shift: shift,
		Occupied: func(from, to sim.Time, busy int) { p.atWork(which, from, to, busy) },
		OnDown: func() {
			failures++
			repair := exponential(p.key, name+" repair", failures, c.Failure.Repair)
			p.k.After(repair, name+" repaired", func() {
				r.RepairOne()
				p.settle()
			})
		},
	})
	p.breakDown(r, 0, c.Count)
	return r
}

// breakDown plans the first breakdowns of units from one on. Each breaks down by itself.
func (p *plant) breakDown(r *resource, from, to int) {
	if r.failure.Every == 0 {
		return
	}
	for unit := from; unit < to; unit++ {
		p.scheduleFailure(r, r.breakdowns(unit), 1)
	}
}

// breakdowns names the stream of those of a unit. The first keeps its own however many
// there are.
func (r *resource) breakdowns(unit int) string {
	if unit == 0 {
		return r.name + " breakdown"
	}
	return fmt.Sprintf("%s %d breakdown", r.name, unit+1)
}

// scheduleFailure plans breakdown number n of a stream, counted from the one before.
func (p *plant) scheduleFailure(r *resource, stream string, n uint64) {
	p.k.After(exponential(p.key, stream, n, r.failure.Every), r.name+" breaks down", func() {
		if r == p.resources[Mixers] {
			p.stopMaking()
		}
		r.FailOne()
		p.scheduleFailure(r, stream, n+1)
		p.settle()
	})
}

func exponential(key streams, name string, n uint64, mean sim.Duration) sim.Duration {
	return sim.DurationOf(random.Exponential{Expected: float64(mean)}.Draw(key.Stream(name, n)))
}

// free reports whether a unit could begin work now, hours aside.
func (r *resource) free() bool { return !r.limited || r.Free() > 0 }

// broken reports whether a unit is missing because of a breakdown.
func (r *resource) broken() bool { return r.limited && r.Down() > 0 }

// hold takes a unit that is free, and release gives it back.
func (r *resource) hold() {
	if r.limited {
		r.Seize(0, func() {})
	}
}

func (r *resource) release() {
	if r.limited {
		r.Release()
	}
}

// add puts more units into service, where they are limited.
func (r *resource) add(n int) {
	if r.limited && n > 0 {
		r.SetCapacity(r.Capacity() + n)
	}
}

// addUnits puts more units into service, where they are limited, and plans their
// breakdowns.
func (p *plant) addUnits(which Resource, n int) {
	r := p.resources[which]
	if !r.limited {
		return
	}
	before := r.Capacity()
	r.add(n)
	p.breakDown(r, before, r.Capacity())
}

// setHours changes the working hours from now on.
func (r *resource) setHours(w *calendar.Work) {
	r.hours = w
	if r.limited {
		r.SetCalendar(w)
	}
}

// work occupies a unit that is free for a time, and calls done at its end.
func (p *plant) work(which Resource, d sim.Duration, what string, done func()) {
	r := p.resources[which]
	if r.limited {
		r.Submit(sim.Job{Service: d, Done: done})
		return
	}
	if d == 0 {
		done()
		return
	}
	p.countUnlimited(which, 1)
	p.k.After(d, what, func() {
		p.countUnlimited(which, -1)
		done()
	})
}

// resources are the machines and crews of a running plant, by Resource.
type resources [numResources]*resource

func (p *plant) newResources() resources {
	y := &p.Yard
	return resources{
		Mixers:    p.newResource(Mixers, Crew{Count: p.Mixer.Units(), Failure: p.Mixer.Failure}, p.Mixer.Hours, sim.FinishJob),
		Screens:   p.newResource(Screens, Crew{Count: p.Screening.Units(), Failure: p.Screening.Failure}, p.Screening.Hours, sim.PauseJob),
		Trucks:    p.newResource(Trucks, y.Trucks, p.Vessels.Hours, sim.FinishJob),
		Loaders:   p.newResource(Loaders, y.Loaders, p.Vessels.Hours, sim.FinishJob),
		Operators: p.newResource(Operators, y.Operators, p.Vessels.Hours, sim.FinishJob),
	}
}

// crewFree reports whether a unit of each resource is free.
func (p *plant) crewFree(which ...Resource) bool {
	for _, r := range which {
		if !p.resources[r].free() {
			return false
		}
	}
	return true
}

// staffed reports whether loaders and operators, where they are limited, are at
// work now: they keep the hours of the yard, whatever those of a machine are.
func (p *plant) staffed() bool {
	limited := p.resources[Loaders].limited || p.resources[Operators].limited
	return !limited || p.open(p.Vessels.Hours, &p.alarms.vessels)
}

// holdCrew takes a free unit of each resource, and releaseCrew gives them back.
func (p *plant) holdCrew(which ...Resource) {
	for _, r := range which {
		p.resources[r].hold()
	}
}

func (p *plant) releaseCrew(which ...Resource) {
	for _, r := range which {
		p.resources[r].release()
	}
}

// charge books work that takes an operator, a loader and a machine of some
// power, kW. Work in hand at a month's end counts in the month in which it began.
func (p *plant) charge(takes sim.Duration, power float64) {
	hours := takes.Hours()
	p.month.Work.OperatorHours += hours
	p.month.Work.LoaderHours += hours
	p.month.Work.MachineEnergy += hours * power
}
