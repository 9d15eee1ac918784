package capability

import (
	"math"
	"testing"

	"loamcast/facility/plant"
	"loamcast/scenarios/study"
)

// Ramps of one replication after another begin in other years, all within the horizon,
// so that no production always comes with one calendar; the production itself rises
// the same in all, and a horizon no longer than a ramp has one beginning.
func TestRampsMeetOtherCalendars(t *testing.T) {
	s := hand(t)
	for _, x := range []struct{ horizon, beginnings int }{{20, 13}, {9, 2}, {8, 1}, {3, 1}} {
		m := s.File.Model
		m.Years = x.horizon
		r := ramp{400, 800, rampYears}
		begins := map[int]int{}
		for _, run := range r.up(study.Case{}, 0, 13) {
			at := m
			run.Alter(&at)
			begins[at.Start.Year-m.Start.Year]++
			if first, last := at.Feed.Base, at.Feed.Base*at.Feed.Growth.Factor(rampYears-0.5); at.Years != rampYears || first != 400 || math.Abs(last/800-1) > 0.01 {
				t.Errorf("replication %d: %d years from %g to %g kg/day", run.Replication, at.Years, first, last)
			}
		}
		for after := range begins {
			if after < 0 || after > max(0, x.horizon-rampYears) {
				t.Errorf("a horizon of %d years: a ramp begins %d years after it", x.horizon, after)
			}
		}
		if len(begins) != x.beginnings {
			t.Errorf("a horizon of %d years: 13 ramps have %d beginnings, want %d: %v", x.horizon, len(begins), x.beginnings, begins)
		}
	}
}

// A ramp is warmed up by a year of its own, whatever is there on the file's first day:
// that belongs to a production that the ramp does not begin with.
func TestRampsForgetTheOpening(t *testing.T) {
	m := hand(t).File.Model
	m.WarmUp, m.Opening = 0, &plant.Opening{}
	for _, run := range (ramp{400, 800, rampYears}).up(study.Case{}, 0, 13) {
		at := m
		run.Alter(&at)
		if at.Opening != nil || at.WarmUp != 1 {
			t.Errorf("replication %d: an opening %+v and %d years of warm-up", run.Replication, at.Opening, at.WarmUp)
		}
	}
}
