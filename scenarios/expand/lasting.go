package expand

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/calendar"
)

// lasting is what is known of how long configurations last.
type lasting struct {
	*lattice
	search vesselplan.Search
	model  *plant.Model
	growth int
	steps  []facilityfile.Step
	helps  []bool // by step: it can only help
	years  int
	limit  float64   // of a year's dry solids that may leave untreated
	fed    []float64 // by year, kg dry
	// busiest is what a day of the busiest month brings, over the mean.
	busiest float64
	// triggered says that the file has changes that wait for a sign.
	triggered bool
	plant     func(config int) (*plant.Plant, error)
	needs     []plant.Needs // of the plant as it is, then with each step by itself

	order []int // configurations that were simulated
	last  []int // by configuration, the last year kept, or unknown
	short []plant.Cause
	// asIsMissed is the first year that the plant as it is surely misses.
	asIsMissed int
	sustain    [][]plant.Capacity // by configuration, once asked for
	fails      [][]plant.Capacity // the same, see capacitiesShort
	days       []calendar.Date    // from which on the file's own changes make the plant another
}

const unknown = -2

func newLasting(l *lattice, s *study.Study, search vesselplan.Search, growth int) (*lasting, error) {
	f := s.File
	base := &study.Case{Growth: growth}
	asIs, err := s.Plant(base)
	if err != nil {
		return nil, err
	}
	k := &lasting{
		lattice: l, search: search, model: &f.Model, growth: growth, steps: f.Planning.Catalogue,
		years: f.Model.Years, limit: f.Planning.Target.DivertedLimit,
		fed: fedByYear(asIs), busiest: busiest(asIs), triggered: s.Triggered(base),
		last: make([]int, l.size), short: make([]plant.Cause, l.size), sustain: make([][]plant.Capacity, l.size), fails: make([][]plant.Capacity, l.size),
		days: changed(asIs),
	}
	for _, step := range k.steps {
		k.helps = append(k.helps, helps(step, k.model))
	}
	for c := range k.last {
		k.last[c] = unknown
	}
	k.plant = func(config int) (*plant.Plant, error) {
		return s.Plant(&study.Case{Growth: growth, Steps: k.inForce(config)})
	}
	return k, nil
}

// known reports whether a configuration's lasting is known at least through a
// year.
func (k *lasting) known(config, through int) bool {
	if k.last[config] != unknown {
		return true
	}
	kept, _ := k.bounds(config)
	return kept >= through
}

// lasts returns for every configuration how long it lasts, or may last.
func (k *lasting) lasts() ([]int, error) {
	out := make([]int, k.size)
	for c := range out {
		var err error
		if out[c], err = k.estimate(c); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// estimate returns the last year kept if it is known, and otherwise one that is
// rather too late than too early.
func (k *lasting) estimate(config int) (int, error) {
	if k.last[config] != unknown {
		return k.last[config], nil
	}
	kept, missed := k.bounds(config)
	if kept+1 >= missed {
		return kept, nil
	}
	load, err := k.atMost(config)
	if err != nil {
		return 0, err
	}
	return max(kept, min(missed-1, k.through(load))), nil
}

// bounds returns what follows for a configuration from those simulated: years
// through kept are kept, and those from missed on are missed. What only adds to
// another lasts no shorter.
func (k *lasting) bounds(config int) (kept, missed int) {
	kept, missed = -1, k.years
	for _, c := range k.order {
		switch {
		case k.within(c, config) && k.onlyAdds(c, config):
			kept = max(kept, k.last[c])
		case k.within(config, c) && k.onlyAdds(config, c):
			missed = min(missed, k.last[c]+1)
		}
	}
	return kept, max(missed, kept+1)
}

// onlyAdds reports whether what is between two configurations can only help.
func (k *lasting) onlyAdds(less, more int) bool {
	for i, helps := range k.helps {
		if !helps && k.count(more, i) > k.count(less, i) {
			return false
		}
	}
	return true
}

// helps reports whether a step can only help: it takes nothing away. With more
// holding less is diverted, but what is held instead may wait too long.
func helps(s facilityfile.Step, m *plant.Model) bool {
	faster := s.ScreenCapacity == 0 || s.ScreenCapacity >= m.Screening.Settings.Capacity
	return faster && s.CakeSolids >= 0 && s.Holding == 0 && longer(s.Hours, m)
}

// longer reports whether new hours are open whenever those of any stage are, by
// the hours of a year. No new hours are as long as the old.
func longer(hours *calendar.Work, m *plant.Model) bool {
	if hours == nil {
		return true
	}
	for _, old := range []*calendar.Work{m.Mixer.Hours, m.Vessels.Hours, m.Screening.Hours, m.Dewatering.Hours} {
		for at := int64(0); old != nil && at < calendar.DaysPerYear*calendar.SecondsPerDay; at += calendar.SecondsPerDay / 48 {
			if old.IsOpen(at) && !hours.IsOpen(at) {
				return false
			}
		}
	}
	return true
}

// simulate finds how long a configuration lasts.
func (k *lasting) simulate(ctx context.Context, config int) error {
	guess, err := k.estimate(config)
	if err != nil {
		return err
	}
	kept, missed := k.bounds(config)
	c := study.Case{Growth: k.growth, Steps: k.inForce(config)}
	l, err := k.search.Lasting(ctx, c, vesselplan.Within{Kept: kept, Missed: missed, Guess: guess + 1})
	if err != nil {
		return err
	}
	k.learn(config, l.LastKept)
	k.short[config] = l.Limit
	if config == 0 {
		k.asIsMissed = l.FirstMissed
	}
	return nil
}

// learn notes the last year that a configuration keeps.
func (k *lasting) learn(config, last int) {
	if k.last[config] == unknown {
		k.order = append(k.order, config)
	}
	k.last[config] = last
	k.fails[config] = nil
}

// inForce returns the steps of a configuration, in force from the first day
// simulated.
func (k *lasting) inForce(config int) []facilityfile.Step {
	var out []facilityfile.Step
	for i, s := range k.steps {
		s.Date = s.Lead.Before(k.model.Begin())
		for range k.count(config, i) {
			out = append(out, s)
		}
	}
	return out
}
