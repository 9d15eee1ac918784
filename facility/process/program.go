package process

import (
	"errors"
	"fmt"
	"math"
)

// Segment is one part of the temperature program. It lasts Hours, or longer if it
// waits for something; the last one goes on to the end.
type Segment struct {
	Name     string
	Hours    float64 // duration, the least if Until is given
	Setpoint float64 // °C at which the air holds the load; +Inf for none
	MinFlow  float64 // least flow, m3/h per initial dry tonne
	// Ramp is how fast the setpoint comes down from the temperature that the load
	// has when the segment begins, K/h; 0 for at once. A load that is colder than
	// the setpoint warms up as fast as it can.
	Ramp float64
	// Until is what the segment waits for; nil for nothing but time.
	Until *Ending
}

// Ending is a criterion that ends a segment once it is met.
type Ending struct {
	Criterion Criterion
	// Own judges the time of the segment alone, otherwise the whole course up to
	// now counts.
	Own bool
	// Longest is when the segment ends although the criterion is not met, h
	// since it began.
	Longest float64
}

// DefaultRamp is an assumption: a controller that steps its setpoint by a degree an
// hour. It takes a load from 60 to 52 °C in a third of a day.
const DefaultRamp = 1 // K/h

// DefaultTurndown is a fan on a variable-speed drive that is not run below a fifth of
// its flow (practice, no source).
const DefaultTurndown = 0.2

// DefaultHold returns the program of [DefaultVesselModel] as a controller that waits
// carries it out: it lasts as long at least, holds the first temperature until the
// longest criterion of the vessel is met, two weeks at most (an assumption), and comes
// down by DefaultRamp.
func DefaultHold(criteria []Criterion) []Segment {
	program := DefaultVesselModel().Program
	for i := range program[1:] {
		program[1+i].Ramp = DefaultRamp
	}
	var longest *Criterion
	for i := range criteria {
		if c := &criteria[i]; c.Where == InVessel && (longest == nil || c.Hours > longest.Hours) {
			longest = c
		}
	}
	if longest != nil {
		program[0].Until = &Ending{Criterion: *longest, Longest: 14 * hoursPerDay}
	}
	return program
}

func (s Segment) validate() error {
	switch u := s.Until; {
	case !(s.Hours > 0):
		return fmt.Errorf("segment %q: duration must be positive", s.Name)
	case !(s.Setpoint > 0):
		return fmt.Errorf("segment %q: setpoint %g °C must be above 0", s.Name, s.Setpoint)
	case !(s.MinFlow >= 0):
		return fmt.Errorf("segment %q: least flow must not be negative", s.Name)
	case !(s.Ramp >= 0) || math.IsInf(s.Ramp, 0):
		return fmt.Errorf("segment %q: a ramp of %g K/h is impossible", s.Name, s.Ramp)
	case u == nil:
		return nil
	case !(u.Longest >= s.Hours) || math.IsInf(u.Longest, 0):
		return fmt.Errorf("segment %q: the longest time, %g h, must not be below the least, %g h", s.Name, u.Longest, s.Hours)
	default:
		return u.Criterion.Validate()
	}
}

// waits reports whether a segment before the last ends at other than a fixed time.
func (m *Model) waits() bool {
	for _, s := range m.Program[:len(m.Program)-1] {
		if s.Until != nil {
			return true
		}
	}
	return false
}

// Blowing returns the flow, m3/h, while a blower that gives a mean of flow is on,
// where most is its largest: below its turndown it blows on and off.
func (b Blower) Blowing(flow, most float64) float64 {
	if flow <= 0 {
		return flow
	}
	return max(flow, b.Turndown*most)
}

func (b Blower) validateTurndown() error {
	if !(b.Turndown >= 0 && b.Turndown <= 1) {
		return errors.New("blower: the turndown must be between 0 and 1")
	}
	return nil
}

// progress is how far a course has come in the program.
type progress struct {
	segment int
	began   float64    // of the segment, h
	ends    float64    // of its least duration, h
	from    float64    // temperature of the load when it began, °C
	watch   []*tracker // of segments that wait, nil of others
	ended   []float64  // h, of the segments that are over
}

// soon is the shortest step taken towards the moment at which a segment may end, h.
const soon = 0.05

func (m *Model) progress(temperature float64) progress {
	p := progress{ends: m.Program[0].Hours, from: temperature}
	if m.waits() {
		p.watch = make([]*tracker, len(m.Program))
		for i, s := range m.Program[:len(m.Program)-1] {
			if s.Until != nil {
				p.watch[i] = newTracker(s.Until.Criterion)
			}
		}
	}
	return p
}

// waiting returns what the present segment waits for, nil for nothing but time.
func (p *progress) waiting() *tracker {
	if p.watch == nil {
		return nil
	}
	return p.watch[p.segment]
}

// latest returns the hour at which the present segment ends whatever happens.
func (r *run) latest() float64 {
	switch p := &r.progress; {
	case p.segment == len(r.m.Program)-1:
		return math.Inf(1)
	case p.waiting() == nil || p.waiting().met.OK:
		return max(p.ends, r.hours)
	default:
		return p.began + r.m.Program[p.segment].Until.Longest
	}
}

// soonest returns the first hour at which the present segment may end.
func (r *run) soonest() float64 {
	t := r.progress.waiting()
	if t == nil || t.met.OK {
		return r.latest()
	}
	return max(r.hours+max(t.remaining(r.temperature), soon), r.progress.ends)
}

// pass goes on to the segment of the present hour.
func (r *run) pass() {
	p := &r.progress
	for r.hours >= r.latest() {
		p.segment++
		p.began = r.hours
		p.ended = append(p.ended, p.began)
		p.ends = p.began + r.m.Program[p.segment].Hours
		p.from = r.temperature
	}
}

// follow shows a step, from a temperature before it, to the criteria that segments
// wait for, by the same readings as those by which a course is judged.
func (r *run) follow(before float64) {
	p := &r.progress
	for i, t := range p.watch {
		if t == nil || t.met.OK || i < p.segment || i > p.segment && r.m.Program[i].Until.Own {
			continue
		}
		if r.stride.least == r.stride.most {
			t.add(Reading{Hours: r.last.length, Temperature: r.last.mean})
			continue
		}
		for reading := range readings(before, r.temperature, r.last.length) {
			t.add(reading)
		}
	}
}

// setpointAt returns the setpoint at an hour of the present segment, °C.
func (r *run) setpointAt(hours float64) float64 {
	s := &r.m.Program[r.progress.segment]
	if s.Ramp == 0 {
		return s.Setpoint
	}
	return max(s.Setpoint, r.progress.from-s.Ramp*(hours-r.progress.began))
}

// remaining returns the least hours in which the criterion can be met from now on,
// by a load that is no more than one step's warming above t °C meanwhile.
func (t *tracker) remaining(temperature float64) float64 {
	if t.c.Kind == Lethality {
		return (1 - t.dose) * t.c.Required(temperature+warming)
	}
	if left := t.c.Hours - t.length; left > 0 {
		return left
	}
	return briefest // its mean or its peak is missing, which may come at any time
}
