package study

import (
	"errors"
	"testing"

	"loamcast/scenarios/facilityfile"
)

// A study remembers by its file.
func TestStudyRemembersByFile(t *testing.T) {
	one := &Study{File: &facilityfile.File{}, once: &memo{}}
	two := &Study{File: &facilityfile.File{}, once: one.once}
	for i, s := range []*Study{one, two, one} {
		got, err := s.Once("key", func() (any, error) { return i, nil })
		if want := i % 2; got != want || err != nil {
			t.Errorf("study %d: %v, %v, want %d", i, got, err, want)
		}
	}
}

// What was made for a file and a key is made once, also where making it makes
// something else; what failed is tried again; another file has its own.
func TestOnce(t *testing.T) {
	m, f, calls := &memo{}, &facilityfile.File{}, 0
	outer := func() (any, error) {
		calls++
		return m.get(made{f, "inner"}, func() (any, error) { return calls, nil })
	}
	for range 3 {
		if got, err := m.get(made{f, "outer"}, outer); got != 1 || err != nil {
			t.Errorf("%v, %v after %d calls", got, err, calls)
		}
	}
	if got, _ := m.get(made{&facilityfile.File{}, "outer"}, outer); got != 1 || calls != 2 {
		t.Errorf("another file: %v after %d calls, want the inner of the first and 2", got, calls)
	}
	failing := errors.New("not yet")
	if _, err := m.get(made{f, "late"}, func() (any, error) { return nil, failing }); err != failing {
		t.Errorf("error %v", err)
	}
	if got, err := m.get(made{f, "late"}, func() (any, error) { return 7, nil }); got != 7 || err != nil {
		t.Errorf("%v, %v once it can be made", got, err)
	}
}
