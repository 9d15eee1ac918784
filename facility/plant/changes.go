package plant

import (
	"errors"
	"fmt"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Change alters the plant while it runs: on a date, or once a trigger has come
// true, and then after a lead time. What is zero stays as it is.
type Change struct {
	Name    string
	Date    calendar.Date // when it is decided, if there is no Trigger
	Trigger Trigger
	Lead    calendar.Span // from the decision until it takes effect

	Vessels, Places            int     // added
	Class                      int     // of the vessels, by place in [Vessels.Classes]
	Trucks, Loaders, Operators int     // added, where they are limited
	Mixers, Screens            int     // added, like those that are there
	Pad                        float64 // added, m3
	Holding                    float64 // added, kg dry
	ProductStore               float64 // added, m3
	ScreenCapacity             float64 // instead, m3/h
	CakeSolids                 float64 // added to the solids content, 0…1
	Hours                      *calendar.Work
	Contract                   Contract // in place of the one before, whose call is over
}

func (c Change) validate() error {
	if err := c.Trigger.validate(); err != nil {
		return fmt.Errorf("change %q: %w", c.Name, err)
	}
	switch {
	case !c.Trigger.Waits() && !c.Date.Valid():
		return fmt.Errorf("change %q needs a date or a trigger", c.Name)
	case c.Lead.Months < 0 || c.Lead.Days < 0:
		return fmt.Errorf("change %q: a lead time must not be negative", c.Name)
	case c.Vessels < 0 || c.Places < 0 || c.Trucks < 0 || c.Loaders < 0 || c.Operators < 0 || c.Mixers < 0 || c.Screens < 0 ||
		c.Pad < 0 || c.Holding < 0 || c.ProductStore < 0 || c.ScreenCapacity < 0:
		return fmt.Errorf("change %q takes something away; only additions can be simulated", c.Name)
	}
	if err := c.Contract.validate(); err != nil {
		return fmt.Errorf("change %q: %w", c.Name, err)
	}
	return nil
}

func (m *Model) validateChanges() error {
	var errs []error
	for _, c := range m.Changes {
		errs = append(errs, c.validate())
		if c.Class < 0 || c.Class >= m.Vessels.ClassCount() {
			errs = append(errs, fmt.Errorf("change %q: there is no class %d of vessels", c.Name, c.Class))
		}
	}
	return errors.Join(errs...)
}

// inForce returns when a change that is decided on a day takes effect: at the
// beginning of the day on which its lead time is over.
func (c *Change) inForce(clock calendar.Clock, decided calendar.Date) sim.Time {
	return sim.Time(clock.SecondOf(c.Lead.After(decided)))
}

// scheduleChanges plans the changes that have a date, and arms the others. A
// date before the run begins is in force from the start.
func (p *plant) scheduleChanges() {
	for i := range p.Changes {
		c := &p.Changes[i]
		if c.Trigger.Waits() {
			p.armed = append(p.armed, armed{change: c, since: -1})
			continue
		}
		at := c.inForce(p.k.Clock(), c.Date)
		if at <= 0 {
			p.apply(c)
			continue
		}
		p.schedule(c, at)
	}
}

// schedule plans a change that is decided.
func (p *plant) schedule(c *Change, at sim.Time) {
	p.k.AtPriority(at, sim.Early, c.event(), func() {
		p.syncHolding()
		p.apply(c)
		p.settle()
	})
}

func (c *Change) event() string { return "change: " + c.Name }

// apply puts a change into force in this replication.
func (p *plant) apply(c *Change) {
	p.accountUse()
	p.alter(c)
	p.addVessels(c.Class, c.Vessels)
	p.addPlaces(c.Places)
	p.addUnits(Trucks, c.Trucks)
	p.addUnits(Loaders, c.Loaders)
	p.addUnits(Operators, c.Operators)
	p.addMixers(c.Mixers)
	p.addUnits(Mixers, c.Mixers)
	p.addScreens(c.Screens)
	p.addUnits(Screens, c.Screens)
	if c.Hours != nil {
		for _, r := range p.resources {
			r.setHours(c.Hours)
		}
	}
	if c.Contract.On() {
		p.call = call{}
	}
	p.product.blocked = false
}

// alter puts a change into a model.
func (m *Model) alter(c *Change) {
	m.Vessels.Add(c.Class, c.Vessels)
	if m.Yard.Places > 0 {
		m.Yard.Places += c.Places
	}
	m.Yard.Trucks.add(c.Trucks)
	m.Yard.Loaders.add(c.Loaders)
	m.Yard.Operators.add(c.Operators)
	m.Mixer.Count = m.Mixer.Units() + c.Mixers
	m.Screening.Count = m.Screening.Units() + c.Screens
	m.Curing.Capacity += c.Pad
	m.Holding.Capacity += c.Holding
	m.Product.Capacity += c.ProductStore
	if c.ScreenCapacity > 0 {
		m.Screening.Settings.Capacity = c.ScreenCapacity
	}
	m.Feed.Thicken(c.CakeSolids)
	if c.Hours != nil {
		m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours, m.Dewatering.Hours = c.Hours, c.Hours, c.Hours, c.Hours
	}
	if c.Contract.On() {
		m.Contract = c.Contract
	}
}

// add puts more units into service, where they are limited.
func (c *Crew) add(n int) {
	if c.Count > 0 {
		c.Count += n
	}
}
