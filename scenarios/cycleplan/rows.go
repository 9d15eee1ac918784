package cycleplan

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/recycle"
)

const (
	day  = 24.0 // h
	week = 7 * day
)

// days returns the rows of a table: a day each in the vessel, a week each on
// the pad, and the end of both.
func days(m *plant.Model, s *recycle.Steady) []Row {
	vessel, pad := parts(m, s)
	return append(vessel.rows(day), pad.rows(week)...)
}

// samples returns a row for each step of the integration.
func samples(m *plant.Model, s *recycle.Steady) []Row {
	vessel, pad := parts(m, s)
	return append(vessel.rows(0), pad.rows(0)...)
}

// part is vessel or pad, with what went before it.
type part struct {
	course  *process.Course
	program []process.Segment
	onPad   bool
	dry     float64 // of the load at the very start, kg
	start   float64 // h
	water   float64 // removed before, kg
	ammonia float64
	blower  float64
}

func parts(m *plant.Model, s *recycle.Steady) (vessel, pad part) {
	vessel = part{course: s.Journey.Vessel, program: m.Active.Program, dry: s.Load.Dry()}
	end := vessel.course.Final()
	pad = part{
		course: s.Journey.Curing, program: m.Pile.Program, onPad: true, dry: vessel.dry, start: end.Hours,
		water: end.Exchange.Vapour + end.Exchange.Leachate, ammonia: end.Exchange.NH3, blower: end.Blower,
	}
	return vessel, pad
}

// rows takes a row at every multiple of some hours, and at the end; at every
// step if every is 0. A pad on which nothing cures has none.
func (p part) rows(every float64) []Row {
	if p.course.Final().Hours == 0 {
		return nil
	}
	var list []Row
	air, hours, least := 0.0, 0.0, math.Inf(1)
	last := len(p.course.Samples) - 1
	for i, x := range p.course.Samples {
		least = min(least, x.Oxygen)
		if i < last && x.Hours < float64(len(list)+1)*every {
			continue
		}
		list = append(list, Row{
			Hours: p.start + x.Hours, OnPad: p.onPad, Segment: p.segment(x),
			Temperature: x.Temperature, Moisture: x.Parcel.Moisture(), DryLeft: x.Parcel.Dry() / p.dry,
			Flow: (x.Air - air) / (x.Hours - hours), Oxygen: least, Uptake: x.Uptake,
			Water:   p.water + x.Exchange.Vapour + x.Exchange.Leachate,
			Ammonia: p.ammonia + x.Exchange.NH3, Blower: p.blower + x.Blower,
		})
		air, hours, least = x.Air, x.Hours, math.Inf(1)
	}
	return list
}

// segments returns the temperature programs of vessel and pad as far as they
// were carried out.
func segments(m *plant.Model, s *recycle.Steady) []Segment {
	vessel, pad := parts(m, s)
	return append(vessel.segments(), pad.segments()...)
}

func (p part) segments() []Segment {
	var list []Segment
	from := 0.0
	for i, x := range p.course.Samples {
		last := i == len(p.course.Samples)-1
		if x.Hours == 0 || !last && p.course.Samples[i+1].Segment == x.Segment {
			continue
		}
		setpoint := p.program[len(p.program)-1].Setpoint
		if x.Segment != process.AfterProgram {
			setpoint = p.program[x.Segment].Setpoint
		}
		list = append(list, Segment{p.segment(x), p.start + from, p.start + x.Hours, setpoint})
		from = x.Hours
	}
	return list
}

// dryingName is what the time after the program is called.
const dryingName = "until dry for the screen"

// segment names the part of the program in which a sample was taken.
func (p part) segment(x process.Sample) string {
	if x.Segment == process.AfterProgram {
		return dryingName
	}
	return p.program[x.Segment].Name
}
