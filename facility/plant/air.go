package plant

import (
	"errors"

	"loamcast/facility/process"
	"loamcast/sim"
)

// Air is the site's supply of process air to the vessels, and the biofilter that
// takes their exhaust. Without either nothing is limited, and the site's flow is
// not followed.
type Air struct {
	Blowers float64 // all that they give together, m3/h; 0 for no limit
	// Area and Loading are those of the biofilter, m2 and m3/h per m2.
	Area, Loading float64
}

// Limit returns the largest flow that blowers and biofilter both take, m3/h; ok
// is false if there is no limit.
func (a Air) Limit() (flow float64, ok bool) {
	bed := a.Area * a.Loading
	switch {
	case a.Blowers > 0 && bed > 0:
		return min(a.Blowers, bed), true
	case a.Blowers > 0:
		return a.Blowers, true
	}
	return bed, bed > 0
}

func (a Air) validate() error {
	if a.Blowers < 0 || a.Area < 0 || a.Loading < 0 || (a.Area > 0) != (a.Loading > 0) {
		return errors.New("the site's air needs capacities that are not negative, and a biofilter an area and a loading")
	}
	return nil
}

// airSlot is how finely the site's flow is followed.
const airSlot = 2 * sim.Hour

// followAir adds up the flow of all vessels over the day that ends, slot by
// slot. What is asked for is recorded against the limit; the courses of the
// loads are those of vessels with their own share of the blowers.
func (p *plant) followAir() {
	limit, ok := p.Air.Limit()
	if !ok {
		return
	}
	now := p.k.Now()
	for at := max(0, now.Add(-sim.Day)); at < now; at = at.Add(airSlot) {
		flow, pulse := 0.0, 0.0
		add := func(course *process.Response, began, ends sim.Time) {
			mean := flowAt(course, began, ends, at)
			flow += mean
			pulse = max(pulse, course.Blowing(mean)-mean)
		}
		for _, l := range p.active {
			add(&l.course, l.since, l.until)
		}
		for i := range p.leftToday {
			if d := &p.leftToday[i]; at < d.left {
				add(&d.course, d.began, d.ends)
			}
		}
		p.month.Air.Volume += flow * airSlot.Hours()
		flow += pulse // of blowers that blow on and off, one is on
		p.month.Air.Peak = max(p.month.Air.Peak, flow)
		if flow > limit {
			p.month.Air.HoursOver += airSlot.Hours()
		}
	}
	p.leftToday = p.leftToday[:0]
}

// departed is a load that left its place since the last midnight.
type departed struct {
	course      process.Response
	began, left sim.Time
	ends        sim.Time // of the course, 0 if it goes on
}

// depart remembers a load that leaves, if the site's flow is followed.
func (p *plant) depart(l *load) {
	if _, ok := p.Air.Limit(); ok {
		p.leftToday = append(p.leftToday, departed{course: l.course, began: l.since, ends: l.until, left: p.k.Now()})
	}
}

// flowAt returns the air that a load gets, m3/h, 0 before its course and after it.
func flowAt(course *process.Response, began, ends, t sim.Time) float64 {
	if t < began || ends > 0 && t >= ends {
		return 0
	}
	_, flow := course.Air(t.Sub(began).Hours())
	return flow
}
