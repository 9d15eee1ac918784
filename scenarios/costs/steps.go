package costs

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// Taken is a step that was taken in a run.
type Taken struct {
	Step facilityfile.Step
	// InService is when it takes effect, years since the first day reported. It
	// may lie beyond the last.
	InService float64
	// Committed says that the file has it among its changes, so that every plan
	// takes it. Place is its place there, or among the steps of the case.
	Committed bool
	Place     int
}

// Steps returns the steps taken in a run: the committed ones of the file first,
// then those of the case, each in the order given. A step with a date is always
// taken, and one with a trigger in the runs in which the trigger came true.
//
// A trigger that came true during the warm-up counts from the first day
// reported, and so does a step of the case that would be in service before it:
// neither can have been paid for by then. Committed steps of the past are sunk.
func Steps(p *facilityfile.Planning, r *study.Result) []Taken {
	decided := decisions{start: r.Plant.Start, triggered: r.Record.Triggered}
	var out []Taken
	for i, s := range p.Committed {
		if at, ok := decided.inService(s); ok {
			if s.Trigger.Held > 0 {
				at = max(at, 0)
			}
			out = append(out, Taken{Step: s, InService: at, Committed: true, Place: i})
		}
	}
	for i, s := range r.Case.Steps {
		if at, ok := decided.inService(s); ok {
			out = append(out, Taken{Step: s, InService: max(at, 0), Place: i})
		}
	}
	return out
}

// decisions says when each step of a run was decided.
type decisions struct {
	start     calendar.Date
	triggered []plant.Triggered // each stands for one step
}

// inService returns when a step takes effect, if it was decided. Steps of one
// name are matched to their triggers in order.
func (d *decisions) inService(s facilityfile.Step) (years float64, ok bool) {
	date := s.Date
	if s.Trigger.Held > 0 {
		i := d.find(s.Name)
		if i < 0 {
			return 0, false
		}
		date = d.triggered[i].Decided
		d.triggered = append(d.triggered[:i:i], d.triggered[i+1:]...)
	}
	return yearsBetween(d.start, date) + leadYears(s), true
}

func (d *decisions) find(name string) int {
	for i, t := range d.triggered {
		if t.Change == name {
			return i
		}
	}
	return -1
}

// yearsBetween counts calendar years, so that an anniversary is a whole number.
func yearsBetween(from, to calendar.Date) float64 {
	whole := to.Year - from.Year
	if to.Before(from.AddYears(whole)) {
		whole--
	}
	since := from.AddYears(whole)
	length := since.DaysUntil(from.AddYears(whole + 1))
	return float64(whole) + float64(since.DaysUntil(to))/float64(length)
}

func leadYears(s facilityfile.Step) float64 { return float64(s.Lead) / calendar.SecondsPerYear }

// assets returns what the steps taken cost, at so many times the file's capital. A
// step without cost is none.
func assets(taken []Taken, capital float64) []money.Asset {
	var out []money.Asset
	for _, t := range taken {
		a := t.Step.Asset
		if a.Cost.Amount == 0 && a.Running.Amount == 0 {
			continue
		}
		if a.Name == "" {
			a.Name = t.Step.Name
		}
		if a.Life == 0 {
			a.Life = math.Inf(1) // nothing that wears
		}
		a.Cost.Amount *= capital
		a.Year, a.Lead = t.InService, leadYears(t.Step)
		// What is older than its life has been replaced by its like since.
		for a.Year+a.Life < 0 {
			a.Year += a.Life
		}
		out = append(out, a)
	}
	return out
}
