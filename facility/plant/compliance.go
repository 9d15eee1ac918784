package plant

import (
	"fmt"

	"loamcast/facility/process"
	"loamcast/facility/release"
	"loamcast/sim"
)

const secondsPerHour = 3600

// evidence is what a load's courses say, to the second of the clock.
type evidence struct {
	*plant
	kind        *kind // of the vessel
	vessel, pad *process.Response
	stay        sim.Duration
}

// Alone implements [release.Courses].
func (e *evidence) Alone(criterion int) (hours float64, ok bool) {
	hours, ok = e.vessel.Met(criterion)
	if !ok || hours > e.kind.maximum.Hours() {
		return 0, false
	}
	return durationOf(hours).Hours(), true
}

// Together implements [release.Courses]. Courses are those of tables, and the load is gone
// when it is seen whether they were right.
func (e *evidence) Together(criterion int) process.Met {
	stay, longest := e.stay.Hours(), e.Curing.Longest.Hours()
	return e.Active.Criteria[criterion].Surely().JudgeOn(e.vessel.Readings(stay), stay, e.pad.Readings(longest),
		func(level float64) (most, until float64) { return e.pad.Warmest(longest, level) })
}

func durationOf(hours float64) sim.Duration { return sim.DurationOf(hours * secondsPerHour) }

// curingPlan is how a load would cure if it were unloaded now.
type curingPlan struct {
	course process.Response
	wait   sim.Duration // until vessel and curing together have met all criteria
}

// assured reports whether a load that is due may be unloaded: all that vessel
// and curing must meet together is met, or will be met on the pad. If not, the
// load stays until the vessel alone has met it, or has failed if that is never.
func (p *plant) assured(l *load) bool {
	now := p.k.Now()
	stay := now.Sub(l.began)
	l.tipped = l.course.Temperature(now.Sub(l.since).Hours())
	today := p.dateNow()
	air := p.airOn(today)
	lot, water := p.toCure(l)
	l.curing.wait = 0
	if err := air.padCourses.From(&l.curing.course, &lot, today.Month, air.PadStart(l.tipped, lot, water, today.Month)); err != nil {
		p.k.Fail(fmt.Errorf("curing of load %d: %w", l.number, err))
		return false
	}
	if l.complied {
		return true
	}
	p.evidence = evidence{p, p.kindOf(l), &l.course, &l.curing.course, stay}
	d := release.Due(p.Active.Criteria, stay.Hours(), &p.evidence)
	switch d.Action {
	case release.Stay:
		p.endWait(l)
		l.compliant = max(l.compliant, durationOf(d.Until))
		l.ready = l.began.Add(l.compliant)
		p.k.At(l.ready, "load due", p.wake)
		return false
	case release.Fail:
		l.failed, l.misses = true, d.Criterion
	default:
		l.curing.wait = durationOf(max(0, d.Pad))
	}
	return true
}

// stableAfter returns how long a lot must cure until no more of the readily
// degradable solids that it was loaded with is left than the release rule
// allows, or that it does not get there in the longest curing time.
func (p *plant) stableAfter(l *load) (wait sim.Duration, ok bool) {
	if p.Curing.ReadilyLeft == 1 {
		return 0, true
	}
	limit := p.Curing.ReadilyLeft * l.readily
	left := func(hours float64) float64 {
		parcel := l.parcel
		l.course.Apply(&parcel, 0, hours)
		return parcel.Degradable()
	}
	hours, ok := release.Stable(left, limit, p.Curing.Longest.Hours())
	return durationOf(hours), ok
}
