package plant

import (
	"errors"
	"fmt"
	"slices"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/sim"
)

// VesselClass is one of several kinds of vessels that a plant has. What is 0, or nil, is
// that of [Vessels].
type VesselClass struct {
	Name      string
	Installed int
	Volume    float64 // useful volume, m3
	Payload   float64 // most wet mass a vessel may carry, kg; infinite where it is not carried

	Residence, Minimum, Maximum sim.Duration
	Turnaround                  *sim.Duration

	Active *process.Model // course in a vessel; its criteria are those of the model
}

// ClassCount returns how many classes of vessels there are, one at least.
func (v *Vessels) ClassCount() int { return max(1, len(v.Classes)) }

// ClassName returns the name of a class, empty where there is one only.
func (v *Vessels) ClassName(class int) string {
	if len(v.Classes) == 0 {
		return ""
	}
	return v.Classes[class].Name
}

// InClass returns how many vessels of a class are installed.
func (v *Vessels) InClass(class int) int {
	if len(v.Classes) == 0 {
		return v.Installed
	}
	return v.Classes[class].Installed
}

// Add installs n more vessels of a class. It writes to no list that another model may
// share.
func (v *Vessels) Add(class, n int) {
	v.Installed += n
	if len(v.Classes) == 0 || n == 0 {
		return
	}
	v.Classes = slices.Clone(v.Classes)
	v.Classes[class].Installed += n
}

// AsClass returns the model of a plant that has the vessels of one class and no others.
func (m *Model) AsClass(class int) Model {
	out := *m
	if len(m.Vessels.Classes) == 0 {
		return out
	}
	c, v := &m.Vessels.Classes[class], &out.Vessels
	v.Classes, v.Installed, v.Extra = nil, c.Installed, 0
	if c.Volume != 0 {
		v.Volume = c.Volume
	}
	if c.Payload != 0 {
		v.Payload = c.Payload
	}
	if c.Residence != 0 {
		v.Residence = c.Residence
	}
	if c.Minimum != 0 {
		v.Minimum = c.Minimum
	}
	if c.Maximum != 0 {
		v.Maximum = c.Maximum
	}
	if c.Turnaround != nil {
		v.Turnaround = *c.Turnaround
	}
	if c.Active != nil {
		out.Active = c.Active
	}
	// A residence that is drawn may pass below what its class gives as the shortest.
	v.Minimum = min(v.Minimum, v.Residence)
	return out
}

// validateVessels holds each class against what a vessel must have.
func (m *Model) validateVessels() error {
	var errs []error
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(m.Vessels.Installed >= 0, "the number of vessels cannot be negative")
	check(m.Vessels.PartFilled > 0, "the wait of part-filled vessels must be set")
	check(m.Vessels.Service.Every >= 0 && m.Vessels.Service.Takes >= 0, "the maintenance of vessels cannot take negative time")
	check(m.Vessels.Extra >= 0 && m.Vessels.Extra < m.Vessels.ClassCount(), "there is no class %d of vessels", m.Vessels.Extra)
	installed := 0
	for class := range m.Vessels.ClassCount() {
		one := m.AsClass(class)
		v := &one.Vessels
		installed += v.Installed
		check(v.Installed >= 0, "the number of vessels of a class cannot be negative")
		check(v.Volume > 0 && v.Payload > 0, "a vessel needs a useful volume and a payload")
		check(v.Minimum > 0 && v.Minimum <= v.Residence && v.Residence <= v.Maximum,
			"residence must be ordered minimum ≤ target ≤ maximum")
		check(v.Turnaround >= 0, "the turnaround cannot be negative")
		if one.Active != m.Active {
			errs = append(errs, one.Active.Validate())
			check(len(one.Active.Criteria) == len(m.Active.Criteria), "all classes of vessels must meet the same criteria")
		}
	}
	check(installed == m.Vessels.Installed, "the vessels of the classes are %d together, not %d", installed, m.Vessels.Installed)
	return errors.Join(errs...)
}

// kind is a class of vessels made ready to run.
type kind struct {
	volume, payload                         float64 // m3, kg
	residence, minimum, maximum, turnaround sim.Duration
	active                                  *process.Model
	courses                                 *process.Responses
	dryer                                   *dryer // nil if loads are not dried in their vessels
}

// newKinds makes the classes of a model ready. Classes of the same physics share their
// tables, also with those of another plant, which may be nil.
func newKinds(m *Model, other *Plant) []kind {
	kinds := make([]kind, m.Vessels.ClassCount())
	for i := range kinds {
		one := m.AsClass(i)
		v := &one.Vessels
		k := &kinds[i]
		*k = kind{volume: v.Volume, payload: v.Payload, residence: v.Residence, minimum: v.Minimum, maximum: v.Maximum,
			turnaround: v.Turnaround, active: one.Active}
		k.share(kinds[:i], true)
		if other != nil {
			k.share(other.kinds, m.Drying.Vessel.sameCourse(&other.Drying.Vessel))
		}
		if k.courses == nil {
			// A blocked load may stay longer than the table reaches; by then it has
			// little left to lose, and keeps it.
			k.courses = process.NewResponses(k.active, k.maximum.Hours())
		}
		if k.dryer == nil {
			k.dryer = newDryer(k.active, m.Drying.Vessel.Air, m.Drying.Vessel.Longest)
		}
	}
	return kinds
}

// share takes the tables of kinds with the same physics, those of drying if that is the
// same.
func (k *kind) share(with []kind, drying bool) {
	for i := range with {
		if w := &with[i]; w.active == k.active {
			if k.courses == nil && w.maximum == k.maximum {
				k.courses = w.courses
			}
			if k.dryer == nil && drying {
				k.dryer = w.dryer
			}
		}
	}
}

// loadsOf returns how many times a mix makes a full load: what volume and payload allow
// of vessels that are of one class.
func (v *Vessels) loadsOf(b *material.Bulk, mix *material.Parcel) float64 {
	return min(v.Payload/mix.Total(), v.Volume/b.VolumeOf(mix))
}

// loadsOf is that of a mix of some mass, kg, and volume, m3, and a vessel of the class.
func (k *kind) loadsOf(mass, volume float64) float64 { return min(k.payload/mass, k.volume/volume) }

// kindOf returns the class of the vessel that a load is in.
func (p *plant) kindOf(l *load) *kind { return &p.kinds[p.vessels[l.vessel].class] }

// ByLoads returns the parts that classes have in the loads of a plant whose vessels are
// all in use all the time: each class has as many as its vessels, over the days that a
// load takes one.
func (m *Model) ByLoads() []float64 {
	parts := make([]float64, m.Vessels.ClassCount())
	if len(parts) == 1 {
		return []float64{1}
	}
	sum := 0.0
	for i := range parts {
		n := float64(m.Vessels.Classes[i].Installed)
		if m.Vessels.Installed == 0 {
			n = 1
		}
		v := m.AsClass(i).Vessels
		parts[i] = n / (v.Residence + v.Turnaround).Days()
		sum += parts[i]
	}
	for i := range parts {
		parts[i] /= sum
	}
	return parts
}

// MeanVessels returns the vessels with the times that loads have in the mean of the
// classes, which keep their own.
func (m *Model) MeanVessels() Vessels {
	out := m.Vessels
	if len(out.Classes) == 0 {
		return out
	}
	out.Classes = slices.Clone(out.Classes)
	var residence, minimum, turnaround float64
	for i, part := range m.ByLoads() {
		v := m.AsClass(i).Vessels
		c := &out.Classes[i]
		c.Residence, c.Minimum, c.Maximum, c.Turnaround = v.Residence, v.Minimum, v.Maximum, &v.Turnaround
		residence += part * float64(v.Residence)
		minimum += part * float64(v.Minimum)
		turnaround += part * float64(v.Turnaround)
	}
	out.Residence, out.Minimum, out.Turnaround = sim.DurationOf(residence), sim.DurationOf(minimum), sim.DurationOf(turnaround)
	return out
}
