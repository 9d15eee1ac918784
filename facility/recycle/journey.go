package recycle

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/facility/release"
)

// Journey is a load's way through vessel and pad.
type Journey struct {
	Vessel      *process.Course // ends when the load leaves the vessel
	Curing      *process.Course // ends when the lot may be screened
	CuringMonth time.Month      // whose weather the pad has: the one of unloading
	Verdicts    []Verdict       // by criterion of the model
	Stable      bool            // the lot has the stability that the model asks for before the screen
	HeldFor     string          // criterion that lengthened the stay in the vessel, if one did
	// VesselDrying and PadDrying are the hours at the end of Vessel and of Curing in
	// which the load is dried, or held, for the screen.
	VesselDrying, PadDrying float64
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

// Watered reports whether the lot got water as it was put up to cure.
func (j *Journey) Watered() bool { return j.Curing.Initial.Water > j.Vessel.Final().Parcel.Water }

// End returns the parcel that goes to the screen.
func (j *Journey) End() material.Parcel { return j.Curing.Final().Parcel }

// ReadilyLeft returns the share of the solids of the load that degrade rapidly or
// readily that is left at the screen.
func (j *Journey) ReadilyLeft() float64 { return readily(j.End()) / readily(j.Vessel.Initial) }

func readily(p material.Parcel) float64 { return p.Degradable() }

// Complies reports whether every criterion is met.
func (j *Journey) Complies() bool { return len(j.Unmet()) == 0 }

// Unmet returns the names of the criteria that are not met.
func (j *Journey) Unmet() []string {
	var names []string
	for _, v := range j.Verdicts {
		if !v.Met {
			names = append(names, v.Criterion.Name)
		}
	}
	return names
}

// Travel follows a load by the release rules of a run ([release.InVessel],
// [release.Due]): it stays in the vessel for the stay aimed at, and longer where
// a criterion asks for it, up to the longest residence; on the pad for the curing
// time, and longer where a criterion that vessel and pad meet together or the
// stability asked for needs it, up to the longest curing time. A load that never
// complies, which a run would haul away, is followed as if it were released at
// the stay aimed at. It returns the context's error if that has ended.
func (l Loop) Travel(ctx context.Context, load material.Parcel) (*Journey, error) {
	t := &travel{Loop: l, ctx: ctx, load: load}
	if err := t.unload(l.Stay); err != nil {
		return nil, err
	}
	criteria := l.Model.Active.Criteria
	d := release.InVessel(criteria, t)
	for t.err == nil && d.Action != release.Fail {
		if d.Action == release.Stay && d.Until > t.stay {
			t.held = criteria[d.Criterion].Name
			if err := t.unload(d.Until); err != nil {
				return nil, err
			}
		}
		if d = release.Due(criteria, t.stay, t); d.Action == release.Release {
			if err := t.dryInVessel(d.Pad); err != nil {
				return nil, err
			}
			return t.arrive(d.Pad)
		}
	}
	if t.err != nil {
		return nil, t.err
	}
	t.held = ""
	if err := t.unload(l.Stay); err != nil {
		return nil, err
	}
	wait := 0.0
	for i, c := range criteria {
		if c.Where == process.InVesselAndCuring {
			if met := t.Together(i); met.OK {
				wait = max(wait, met.Hours-t.stay)
			}
		}
	}
	return t.arrive(wait)
}

// travel is a journey in the making: the courses of a load that is unloaded
// after some stay. It is the evidence on which the release rule decides.
type travel struct {
	Loop
	ctx    context.Context
	load   material.Parcel
	stay   float64         // h in the vessel
	held   string          // criterion that lengthened it
	vessel *process.Course // for the stay
	long   *process.Course // in the vessel up to the longest residence, once asked for
	curing *process.Course // up to the longest curing time after the stay, once asked for
	err    error           // the first that the evidence met

	driedInVessel float64 // h of the stay
}

// course integrates one course, unless the context has ended or one has failed.
func (t *travel) course(what string, m *process.Model, p material.Parcel, month time.Month, hours, start float64) (*process.Course, error) {
	if err := errors.Join(t.err, t.ctx.Err()); err != nil {
		return nil, err
	}
	c, err := m.CourseFrom(p, month, hours, start)
	if err != nil {
		return nil, fmt.Errorf("%s course: %w", what, err)
	}
	return c, nil
}

// unload takes the load out of the vessel after some hours.
func (t *travel) unload(stay float64) (err error) {
	t.stay, t.curing = stay, nil
	t.vessel, err = t.course("vessel", t.Model.Active, t.load, t.Month, stay, math.NaN())
	return err
}

// cure follows the unloaded lot on the pad.
func (t *travel) cure(hours float64) (*process.Course, error) {
	month, out := t.monthAfter(t.stay), t.vessel.Final()
	lot, water := t.rewet().Of(out.Parcel)
	return t.course("curing", t.Model.Pile, lot, month, hours, t.Model.PadStart(out.Temperature, lot, water, month))
}

// longCuring returns the longest curing of the unloaded lot, or nil after an
// error.
func (t *travel) longCuring() *process.Course {
	if t.curing == nil {
		t.curing, t.err = t.cure(t.Model.Curing.Longest.Hours())
	}
	return t.curing
}

// Alone implements [release.Courses].
func (t *travel) Alone(criterion int) (hours float64, ok bool) {
	if met := t.vessel.Met[criterion]; met.OK {
		return met.Hours, true
	}
	if t.long == nil {
		longest := max(t.Stay, t.Model.Vessels.Maximum.Hours())
		if t.long, t.err = t.course("vessel", t.Model.Active, t.load, t.Month, longest, math.NaN()); t.err != nil {
			return 0, false
		}
	}
	met := t.long.Met[criterion]
	return met.Hours, met.OK
}

// Together implements [release.Courses].
func (t *travel) Together(criterion int) process.Met {
	pad := t.longCuring()
	if pad == nil {
		return process.Met{}
	}
	c := t.Model.Active.Criteria[criterion]
	return c.Judge(slices.Values(t.vessel.History()), slices.Values(pad.History()))
}

// arrive cures the unloaded lot, for some hours at least, and ends the journey.
func (t *travel) arrive(wait float64) (*Journey, error) {
	j := &Journey{Vessel: t.vessel, CuringMonth: t.monthAfter(t.stay), HeldFor: t.held, VesselDrying: t.driedInVessel}
	for i, c := range t.Model.Active.Criteria {
		v := Verdict{Criterion: c}
		if at, ok := t.Alone(i); ok && at <= t.stay {
			v.Met, v.Hours = true, at
		} else if c.Where == process.InVesselAndCuring {
			met := t.Together(i)
			v.Met, v.Hours, v.OnPad = met.OK, met.Hours, met.OK && met.Hours > t.stay
		}
		j.Verdicts = append(j.Verdicts, v)
	}
	stable := 0.0
	if stable, j.Stable = t.stable(); t.err != nil {
		return nil, t.err
	}
	cured, err := t.cure(max(t.leastCuring, t.Model.Curing.Time.Hours(), wait, stable))
	if err != nil {
		return nil, err
	}
	j.Curing, j.PadDrying, err = t.gate(cured)
	return j, err
}

// stable returns the hours on the pad until the lot is stable, or the longest
// curing time if it does not get there, and which it is.
func (t *travel) stable() (hours float64, ok bool) {
	asked := t.Model.Curing.ReadilyLeft
	if asked == 1 {
		return 0, true
	}
	c := t.longCuring()
	if c == nil {
		return 0, false
	}
	left := func(hours float64) float64 {
		p := t.vessel.Final().Parcel
		for _, s := range c.Samples {
			if s.Hours > hours {
				break
			}
			p = s.Parcel
		}
		return readily(p)
	}
	return release.Stable(left, asked*readily(t.load), t.Model.Curing.Longest.Hours())
}
