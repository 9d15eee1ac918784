package plant

import (
	"loamcast/facility/process"
	"loamcast/sim"
)

// complyInVessel returns the age at which a load has met every criterion that
// must be met in the vessel, or that it never does within the longest
// residence.
func (p *plant) complyInVessel(course process.Response) (age sim.Duration, failed bool) {
	for i, c := range p.Active.Criteria {
		if c.Where != process.InVessel {
			continue
		}
		hours, ok := course.Met(i)
		if !ok || sim.DurationOf(hours*secondsPerHour) > p.Vessels.Maximum {
			return 0, true
		}
		age = max(age, sim.DurationOf(hours*secondsPerHour))
	}
	return age, false
}

// complyInCuring returns how long a lot must cure until vessel and curing
// together have met every criterion, or that they never do.
func (p *plant) complyInCuring(vessel process.Response, stay sim.Duration, pile process.Response) (wait sim.Duration, failed bool) {
	var history []process.Reading
	for i, c := range p.Active.Criteria {
		if c.Where != process.InVesselAndCuring {
			continue
		}
		if hours, ok := vessel.Met(i); ok && hours <= stay.Hours() {
			continue // the vessel alone has met it
		}
		if history == nil {
			history = append(vessel.History(stay.Hours()), pile.History(p.Curing.Longest.Hours())...)
		}
		met := c.Evaluate(history)
		if !met.OK {
			return 0, true
		}
		wait = max(wait, sim.DurationOf(max(0, met.Hours-stay.Hours())*secondsPerHour))
	}
	return wait, false
}

const secondsPerHour = 3600
