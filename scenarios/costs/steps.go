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
	// may lie beyond the last. Lead is the time from its order to then, years.
	InService, Lead float64
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
		if t, ok := decided.take(s); ok {
			if s.Trigger.Waits() {
				t.InService = max(t.InService, 0)
			}
			t.Committed, t.Place = true, i
			out = append(out, t)
		}
	}
	for i, s := range r.Case.Steps {
		if t, ok := decided.take(s); ok {
			t.InService, t.Place = max(t.InService, 0), i
			out = append(out, t)
		}
	}
	return out
}

// decisions says when each step of a run was decided.
type decisions struct {
	start     calendar.Date
	triggered []plant.Triggered // each stands for one step
}

// take returns a step with when it takes effect, if it was decided. Steps of one
// name are matched to their triggers in order.
func (d *decisions) take(s facilityfile.Step) (t Taken, ok bool) {
	date := s.Date
	if s.Trigger.Waits() {
		i := d.find(s.Name)
		if i < 0 {
			return Taken{}, false
		}
		date = d.triggered[i].Decided
		d.triggered = append(d.triggered[:i:i], d.triggered[i+1:]...)
	}
	at := d.start.YearsUntil(s.Lead.After(date))
	return Taken{Step: s, InService: at, Lead: at - d.start.YearsUntil(date)}, true
}

func (d *decisions) find(name string) int {
	for i, t := range d.triggered {
		if t.Change == name {
			return i
		}
	}
	return -1
}

// assets returns what the steps taken cost, at so many times the file's capital. A
// step without cost is none.
func assets(taken []Taken, capital float64) []money.Asset {
	var out []money.Asset
	for i := range taken {
		if a := taken[i].asset(capital); a.Cost.Amount != 0 || a.Running.Amount != 0 {
			out = append(out, a)
		}
	}
	return out
}

// asset returns what the step costs, at so many times the file's capital.
func (t *Taken) asset(capital float64) money.Asset {
	a := t.Step.Asset
	if a.Name == "" {
		a.Name = t.Step.Name
	}
	if a.Life == 0 {
		a.Life = math.Inf(1) // nothing that wears
	}
	a.Cost.Amount *= capital
	a.Year, a.Lead = t.InService, t.Lead
	// What is older than its life has been replaced by its like since.
	for a.Year+a.Life < 0 {
		a.Year += a.Life
	}
	return a
}
