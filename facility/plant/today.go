package plant

import (
	"time"

	"loamcast/sim"
	"loamcast/sim/calendar"
)

// today is a day of the run and its date. The date is asked for at every turn, and to
// work it out takes as long as half of what is done with it.
type today struct {
	day  sim.Time // since the run began
	date calendar.Date
}

// dateNow returns the present date.
func (p *plant) dateNow() calendar.Date {
	now := p.k.Now()
	if day := now / sim.Time(sim.Day); day != p.today.day {
		p.today = today{day, p.today.date.AddDays(int(day - p.today.day))}
	}
	return p.today.date
}

// monthNow returns the present month.
func (p *plant) monthNow() time.Month { return p.dateNow().Month }

// untilMidnight returns what is left of the present day.
func (p *plant) untilMidnight() sim.Duration {
	return sim.Day - sim.Duration(p.k.Now())%sim.Day
}
