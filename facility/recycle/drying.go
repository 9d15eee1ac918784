package recycle

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/facility/process"
	"loamcast/facility/release"
	"loamcast/sim"
)

// dryInVessel dries a load that complies and is due, as a run does: see
// [plant.VesselDrying]. A load that needs the pad to comply is not dried.
func (t *travel) dryInVessel(pad float64) error {
	v := t.Model.Drying.Vessel
	if v.Longest == 0 || pad > 0 {
		return nil
	}
	d := dryer{travel: t, model: t.Model.Active, air: v.Air, enough: v.Moisture, stretch: v.Longest}
	var err error
	if t.vessel, t.driedInVessel, err = d.dry(t.vessel, 0, v.Longest); err != nil {
		return err
	}
	t.stay, t.curing = t.stay+t.driedInVessel, nil
	return nil
}

// gate follows a lot that has cured until it is dry enough for the screen, as the
// model's gate has it.
func (t *travel) gate(cured *process.Course) (*process.Course, float64, error) {
	g := t.Model.Drying
	if g.Gate == plant.ScreenAnyway {
		return cured, 0, nil
	}
	d := dryer{travel: t, model: t.Model.Pile, enough: g.Moisture, stretch: min(g.Longest, plant.Stretch)}
	if g.Gate == plant.DryFirst {
		d.air = g.Air
	}
	return d.dry(cured, t.stay, g.Longest)
}

// dryer dries a load along courses that are integrated directly.
type dryer struct {
	*travel
	model       *process.Model
	air, enough float64
	stretch     sim.Duration
}

// dry returns a course that goes on after another one until the load is dry enough,
// or for the longest time, and the hours that it adds. The course began some hours
// after the load was begun.
func (d *dryer) dry(after *process.Course, began float64, longest sim.Duration) (*process.Course, float64, error) {
	took := 0.0
	for took < longest.Hours() && !release.IsDry(after.Final().Parcel.Moisture(), d.enough) {
		end := after.Final()
		m := d.model.Dries(d.air)
		next, dry, err := d.until(func(hours float64) (*process.Course, error) {
			return d.course("drying", m, end.Parcel, d.monthAfter(began+end.Hours), hours, m.DriesFrom(end.Temperature))
		}, min(longest.Hours()-took, d.stretch.Hours()))
		if err != nil {
			return nil, 0, err
		}
		after = after.Then(next)
		took += next.Final().Hours
		if dry {
			break
		}
	}
	return after, took, nil
}

// until returns the course that ends when the load is dry enough, or after the longest
// time, and which it is. The moment is read off the long course, between two steps of
// which lies a little more than a straight line: a course that ends there tells how
// much, and in two rounds or three it is found.
func (d *dryer) until(course func(hours float64) (*process.Course, error), longest float64) (*process.Course, bool, error) {
	const (
		rounds = 6
		exact  = 1e-10
	)
	long, err := course(longest)
	if err != nil {
		return nil, false, err
	}
	hours, dry := release.Dry(long.MoistureAt, d.enough, longest)
	if !dry {
		return long, false, nil
	}
	slope := (long.MoistureAt(hours+long.Samples[0].Hours) - long.MoistureAt(hours)) / long.Samples[0].Hours
	var c *process.Course
	for range rounds {
		if c, err = course(min(hours, longest)); err != nil {
			return nil, false, err
		}
		off := c.Final().Parcel.Moisture() - d.enough
		if math.Abs(off) < exact || !(slope < 0) {
			break
		}
		hours = max(hours-off/slope, 0)
	}
	return c, true, nil
}
