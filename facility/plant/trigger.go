package plant

import (
	"errors"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// Trigger is the sign on which a change is decided, one of two. Both are looked for
// at midnight, in the warm-up too.
//
//   - The holding has been filled above a share of its capacity for some time
//     without a break. This is looked at every day.
//   - The mean production of the last twelve months is above a limit. This is judged
//     on the first day of each month, as a manager does from his monthly record, and
//     only once that record holds twelve whole months. The months of the warm-up are
//     recorded as all others: with a warm-up the sign can be there on the first day
//     reported, or before, and without it not before the second year.
type Trigger struct {
	Held float64 // share of the capacity, 0…1; 0 means no such trigger
	For  sim.Duration
	// Production is in kg dry a day: the cake that the plant was brought, pulses and
	// what was diverted included, over the days of the last twelve months. Feedstocks
	// that are hauled in beside it do not count. 0 means no such trigger.
	Production float64
}

// Waits reports whether there is a sign to wait for.
func (t Trigger) Waits() bool { return t.Held != 0 || t.Production != 0 }

func (t Trigger) validate() error {
	switch {
	case !(t.Held >= 0 && t.Held <= 1):
		return errors.New("the share of the holding that a trigger waits for must be from 0 to 1")
	case t.For < 0:
		return errors.New("the time that a trigger waits for must not be negative")
	case !(t.Production >= 0):
		return errors.New("the production that a trigger waits for must not be negative")
	case t.Held > 0 && t.Production > 0:
		return errors.New("a trigger waits for one sign, the cake held or the production, not for both")
	case t.For > 0 && t.Held == 0:
		return errors.New("a time without a share of the holding is no trigger")
	}
	return nil
}

// armed is a change that waits for its trigger.
type armed struct {
	change *Change
	since  sim.Time // when the holding rose above the mark, −1 while below
}

// watchTriggers looks at the triggers once a day, at midnight.
func (p *plant) watchTriggers() {
	today := p.dateNow()
	waiting := p.armed[:0]
	for _, a := range p.armed {
		if !p.shows(&a, today) {
			waiting = append(waiting, a)
			continue
		}
		p.rec.Triggered = append(p.rec.Triggered, Triggered{Change: a.change.Name, Decided: today})
		p.schedule(a.change, a.change.inForce(p.k.Clock(), today))
	}
	p.armed = waiting
}

// shows reports whether the sign that a change waits for is there.
func (p *plant) shows(a *armed, today calendar.Date) bool {
	t, now := a.change.Trigger, p.k.Now()
	if t.Production > 0 {
		if today.Day != 1 { // nothing new is recorded
			return false
		}
		mean, known := p.produced.mean()
		return known && mean > t.Production
	}
	switch above := p.holding.dry > t.Held*p.Holding.Capacity; {
	case !above:
		a.since = -1
	case a.since < 0:
		a.since = now
	}
	return a.since >= 0 && now.Sub(a.since) >= t.For
}

// Triggered says when a change with a trigger was decided.
type Triggered struct {
	Change  string
	Decided calendar.Date
}

// produced is the record of the cake of the last twelve months.
type produced struct {
	dry, days [calendar.MonthsPerYear]float64 // by month of the year: kg, and days
	months    int                             // recorded since the run began
}

// add records a month in place of the same month of the year before.
func (r *produced) add(m *Month) {
	r.dry[m.Month-1], r.days[m.Month-1] = m.Feed.CakeDry(), m.Days
	r.months++
}

// mean returns the production of the last twelve months, kg dry a day; known is
// false until there are as many.
func (r *produced) mean() (perDay float64, known bool) {
	if r.months < calendar.MonthsPerYear {
		return 0, false
	}
	dry, days := 0.0, 0.0
	for i := range r.dry {
		dry, days = dry+r.dry[i], days+r.days[i]
	}
	return dry / days, true
}
