package study

import (
	"reflect"
	"slices"

	"loamcast/facility/process"
	"loamcast/scenarios/facilityfile"
)

// For returns a study of another file. It shares the tables of courses with s as far as
// both plants have the same physics, which saves filling them again and changes no
// answer, and the workers; what was made once for s it makes anew. The file is left as
// it is.
func (s *Study) For(f *facilityfile.File) (*Study, error) {
	other := *f
	m := &other.Model
	m.Pile = alike(m.Pile, s.base.Pile)
	m.Active = s.active(m.Active)
	m.Vessels.Classes = slices.Clone(m.Vessels.Classes)
	for i := range m.Vessels.Classes {
		if c := &m.Vessels.Classes[i]; c.Active != nil {
			c.Active = s.active(c.Active)
		}
	}
	base, err := s.base.With(*m)
	if err != nil {
		return nil, err
	}
	return &Study{File: &other, Workers: s.Workers, base: base, once: &memo{}, workers: s.workers}, nil
}

// active returns the process of a class of vessels of s that is like m, or m.
func (s *Study) active(m *process.Model) *process.Model {
	for i := range s.base.Vessels.Classes {
		if known := s.base.Vessels.Classes[i].Active; known != nil && alike(m, known) == known {
			return known
		}
	}
	return alike(m, s.base.Active)
}

// alike returns known if m has the same physics, so that tables go by it; else m.
func alike(m, known *process.Model) *process.Model {
	if reflect.DeepEqual(m, known) {
		return known
	}
	return m
}
