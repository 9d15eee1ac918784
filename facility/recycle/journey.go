package recycle

import (
	"fmt"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
)

// Journey is a load's way through vessel and pad.
type Journey struct {
	Vessel      *process.Course // ends when the load leaves the vessel
	Curing      *process.Course // ends when the lot may be screened
	CuringMonth time.Month      // whose weather the pad has: the one of unloading
	Verdicts    []Verdict       // by criterion of the model
	Stable      bool            // the lot has the stability that the model asks for before the screen
	HeldFor     string          // criterion that lengthened the stay in the vessel, if one did
}

// Verdict says whether and when a criterion is met on the way.
type Verdict struct {
	Criterion process.Criterion
	Met       bool
	Hours     float64 // from the start of the load, if met
	OnPad     bool    // met after the load has left the vessel
}

// Stay returns the hours in the vessel.
func (j *Journey) Stay() float64 { return j.Vessel.Final().Hours }

// Cured returns the hours on the pad.
func (j *Journey) Cured() float64 { return j.Curing.Final().Hours }

// End returns the parcel that goes to the screen.
func (j *Journey) End() material.Parcel { return j.Curing.Final().Parcel }

// ReadilyLeft returns the share of the readily degradable solids of the load that
// is left at the screen.
func (j *Journey) ReadilyLeft() float64 { return readily(j.End()) / readily(j.Vessel.Initial) }

func readily(p material.Parcel) float64 { return p.Fine.Readily + p.Coarse.Readily }

// Complies reports whether every criterion is met.
func (j *Journey) Complies() bool {
	for _, v := range j.Verdicts {
		if !v.Met {
			return false
		}
	}
	return true
}

// Travel follows a load by the release rules of a run: it stays in the vessel
// for the stay aimed at, and longer where a criterion asks for it, up to the
// longest residence; on the pad for the curing time, and longer where a
// criterion that vessel and pad meet together or the stability asked for needs
// it, up to the longest curing time. A load that never complies, which a run would haul away, is
// followed as if it were released at the stay aimed at.
func (l Loop) Travel(load material.Parcel) (*Journey, error) {
	t := &travel{Loop: l, load: load}
	stay, held := l.Stay, ""
	for {
		j, wait, err := t.attempt(stay)
		if err != nil {
			return nil, err
		}
		if wait.hours <= stay {
			j.HeldFor = held
			return j, nil
		}
		stay, held = wait.hours, wait.criterion
	}
}

// travel holds what the attempts at one journey share.
type travel struct {
	Loop
	load material.Parcel
	long *process.Course // in the vessel up to the longest residence
}

// wait is a stay in the vessel that a criterion asks for.
type wait struct {
	hours     float64
	criterion string
}

// attempt follows the load with a given stay and returns the longer one that a
// criterion asks for, if any does.
func (t *travel) attempt(stay float64) (*Journey, wait, error) {
	vessel, err := t.Model.Active.Course(t.load, t.Month, stay)
	if err != nil {
		return nil, wait{}, fmt.Errorf("vessel course: %w", err)
	}
	j := &Journey{Vessel: vessel, CuringMonth: t.monthAfter(stay)}
	cured := max(t.leastCuring, t.Model.Curing.Time.Hours())
	pad := &pad{travel: t, journey: j}
	var longer wait
	for i, c := range t.Model.Active.Criteria {
		v := Verdict{Criterion: c, Met: vessel.Met[i].OK, Hours: vessel.Met[i].Hours}
		if !v.Met && c.Where == process.InVesselAndCuring {
			if v, err = pad.judge(v, stay); err != nil {
				return nil, wait{}, err
			}
			if v.Met {
				cured = max(cured, v.Hours-stay)
			}
		}
		if !v.Met {
			alone, err := t.alone(i)
			if err != nil {
				return nil, wait{}, err
			}
			if alone > longer.hours {
				longer = wait{alone, c.Name}
			}
		}
		j.Verdicts = append(j.Verdicts, v)
	}
	stable, err := pad.stable(j)
	if err != nil {
		return nil, wait{}, err
	}
	j.Curing, err = pad.course(max(cured, stable))
	return j, longer, err
}

// alone returns the hour at which a vessel alone meets a criterion within the
// longest residence, or 0.
func (t *travel) alone(criterion int) (float64, error) {
	if t.long == nil {
		var err error
		longest := max(t.Stay, t.Model.Vessels.Maximum.Hours())
		if t.long, err = t.Model.Active.Course(t.load, t.Month, longest); err != nil {
			return 0, fmt.Errorf("vessel course: %w", err)
		}
	}
	if met := t.long.Met[criterion]; met.OK {
		return met.Hours, nil
	}
	return 0, nil
}

// pad is the curing that follows a vessel course.
type pad struct {
	*travel
	journey *Journey
	history []process.Reading // of vessel and the longest curing
}

func (p *pad) course(hours float64) (*process.Course, error) {
	c, err := p.Model.Pile.Course(p.journey.Vessel.Final().Parcel, p.journey.CuringMonth, hours)
	if err != nil {
		return nil, fmt.Errorf("curing course: %w", err)
	}
	return c, nil
}

// stable returns the hours on the pad until the lot is stable, or the longest
// curing time if it does not get there, and notes which it is.
func (p *pad) stable(j *Journey) (hours float64, err error) {
	if j.Stable = p.Model.Curing.ReadilyLeft == 1; j.Stable {
		return 0, nil
	}
	limit := p.Model.Curing.ReadilyLeft * readily(j.Vessel.Initial)
	c, err := p.course(p.Model.Curing.Longest.Hours())
	if err != nil {
		return 0, err
	}
	for _, s := range c.Samples {
		if readily(s.Parcel) <= limit {
			j.Stable = true
			return s.Hours, nil
		}
	}
	return p.Model.Curing.Longest.Hours(), nil
}

// judge completes a verdict with what vessel and pad show together.
func (p *pad) judge(v Verdict, stay float64) (Verdict, error) {
	if p.history == nil {
		c, err := p.course(p.Model.Curing.Longest.Hours())
		if err != nil {
			return v, err
		}
		p.history = append(p.journey.Vessel.History(), c.History()...)
	}
	met := v.Criterion.Evaluate(p.history)
	v.Met, v.Hours, v.OnPad = met.OK, met.Hours, met.OK && met.Hours > stay
	return v, nil
}
