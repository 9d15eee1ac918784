package plant

import (
	"fmt"

	"loamcast/facility/process"
	"loamcast/sim"
)

const secondsPerHour = 3600

// complyInVessel returns the age at which a load has met every criterion that
// must be met in the vessel, or the first that it never meets within the
// longest residence.
func (p *plant) complyInVessel(course process.Response) (age sim.Duration, misses int, failed bool) {
	for i, c := range p.Active.Criteria {
		if c.Where != process.InVessel {
			continue
		}
		at, ok := p.metInVessel(course, i)
		if !ok {
			return 0, i, true
		}
		age = max(age, at)
	}
	return age, 0, false
}

// metInVessel returns the age at which a vessel alone meets a criterion, if
// within the longest residence.
func (p *plant) metInVessel(course process.Response, criterion int) (sim.Duration, bool) {
	hours, ok := course.Met(criterion)
	if !ok || hours > p.Vessels.Maximum.Hours() {
		return 0, false
	}
	return sim.DurationOf(hours * secondsPerHour), true
}

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
	course, err := p.padCourses.Of(l.parcel, p.k.Clock().Month(int64(now)))
	if err != nil {
		p.k.Fail(fmt.Errorf("curing of load %d: %w", l.number, err))
		return false
	}
	l.curing = curingPlan{course: course}
	stay := now.Sub(l.began)
	for i, c := range p.Active.Criteria {
		if c.Where != process.InVesselAndCuring {
			continue
		}
		alone, ok := p.metInVessel(l.course, i)
		if ok && alone <= stay {
			continue
		}
		if met := c.Judge(l.course.Readings(stay.Hours()), course.Readings(p.Curing.Longest.Hours())); met.OK {
			l.curing.wait = max(l.curing.wait, sim.DurationOf(max(0, met.Hours-stay.Hours())*secondsPerHour))
			continue
		}
		if !ok {
			l.failed, l.misses = true, i
			return true
		}
		p.endWait(l)
		l.compliant = max(l.compliant, alone)
		l.ready = l.began.Add(l.compliant)
		p.k.At(l.ready, "load due", p.settle)
		return false
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
		return parcel.Fine.Readily + parcel.Coarse.Readily
	}
	low, high := 0.0, p.Curing.Longest.Hours()
	if left(high) > limit {
		return p.Curing.Longest, false
	}
	for high-low > stabilityPrecision {
		if mid := (low + high) / 2; left(mid) > limit {
			low = mid
		} else {
			high = mid
		}
	}
	return sim.DurationOf(high * secondsPerHour), true
}

// stabilityPrecision is how close the moment of stability is found, h.
const stabilityPrecision = 1
