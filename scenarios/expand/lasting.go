package expand

import (
	"context"
	"math"

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
		last: make([]int, l.size), short: make([]plant.Cause, l.size), sustain: make([][]plant.Capacity, l.size),
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

// Margins by which screening errs on the long side: of what a stage sustains by
// arithmetic; of what a plant gains by what a stage gains; and of what a stage
// could carry, over what came in on a day of the busiest month, if it was not what
// was short.
const (
	capacityMargin = 1.05
	gainMargin     = 1.03
	idleMargin     = 1.6
)

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
		for at := int64(0); old != nil && at < daysPerYear*calendar.SecondsPerDay; at += calendar.SecondsPerDay / 48 {
			if old.IsOpen(at) && !hours.IsOpen(at) {
				return false
			}
		}
	}
	return true
}

// atMost returns the yearly load, kg dry, that a configuration carries at most, by
// screening.
func (k *lasting) atMost(config int) (float64, error) {
	most, err := k.leastCapacity(config)
	if err != nil {
		return 0, err
	}
	for _, c := range k.order {
		if !k.within(c, config) || k.last[c] >= k.years-1 {
			continue
		}
		gain, err := k.gain(c, config)
		if err != nil {
			return 0, err
		}
		most = min(most, k.fed[k.last[c]+1]*gain)
	}
	return most, nil
}

// leastCapacity is what the weakest stage sustains with what may leave untreated.
func (k *lasting) leastCapacity(config int) (float64, error) {
	least := math.Inf(1)
	if k.triggered {
		return least, nil // by arithmetic it is not known what comes
	}
	capacities, err := k.capacities(config)
	if err != nil {
		return 0, err
	}
	for _, c := range capacities {
		least = min(least, c.CakeDry)
	}
	return least * daysPerYear * capacityMargin / (1 - k.limit), nil
}

// gain returns how many times the load that is too much for one configuration may
// be carried by another that contains it: as many as the stage that gains most
// carries, of those that can have been short. Buffers even out what no stage
// sustains, and what that gains is not known.
func (k *lasting) gain(less, more int) (float64, error) {
	for i, s := range k.steps {
		if k.count(more, i) > k.count(less, i) && (s.Holding > 0 || s.ProductStore > 0) {
			return math.Inf(1), nil
		}
	}
	before, err := k.capacities(less)
	if err != nil {
		return 0, err
	}
	after, err := k.capacities(more)
	if err != nil {
		return 0, err
	}
	idle := idleMargin * k.busiest * k.fed[k.last[less]+1] / daysPerYear
	gain := 1.0
	for _, b := range before {
		for _, a := range after {
			if a.Stage == b.Stage && a.CakeDry > b.CakeDry && b.CakeDry < idle {
				gain = max(gain, a.CakeDry/b.CakeDry*gainMargin)
			}
		}
	}
	return gain, nil
}

// capacities are those of a configuration on the last day, when all that the file
// itself will change has been changed.
func (k *lasting) capacities(config int) ([]plant.Capacity, error) {
	if k.sustain[config] == nil {
		p, err := k.plant(config)
		if err != nil {
			return nil, err
		}
		k.sustain[config] = p.Capacities(p.Start.AddYears(k.years).AddDays(-1), k.needsOf(config))
	}
	return k.sustain[config], nil
}

// needsOf returns the needs of the mix of a configuration: thicker cake changes
// them by as much each time.
func (k *lasting) needsOf(config int) plant.Needs {
	base := k.needs[0]
	n := base
	for i, s := range k.steps {
		if s.CakeSolids == 0 {
			continue
		}
		with := k.needs[i+1]
		for range k.count(config, i) {
			n.Payload *= ratio(with.Payload, base.Payload)
			n.Volume *= ratio(with.Volume, base.Volume)
			n.Pad *= ratio(with.Pad, base.Pad)
			n.Screen *= ratio(with.Screen, base.Screen)
			n.Product *= ratio(with.Product, base.Product)
			n.Chips *= ratio(with.Chips, base.Chips)
		}
	}
	return n
}

func ratio(a, b float64) float64 {
	if b == 0 {
		return 1
	}
	return a / b
}

// through returns the last year before the load first reaches some kg dry.
func (k *lasting) through(load float64) int {
	for y, fed := range k.fed {
		if fed >= load {
			return y - 1
		}
	}
	return k.years - 1
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
}

// inForce returns the steps of a configuration, in force from the first day
// simulated.
func (k *lasting) inForce(config int) []facilityfile.Step {
	var out []facilityfile.Step
	for i, s := range k.steps {
		s.Date = k.model.Begin().AddDays(-leadDays(s))
		for range k.count(config, i) {
			out = append(out, s)
		}
	}
	return out
}

// leadDays is the lead time of a step in whole days.
func leadDays(s facilityfile.Step) int { return int(math.Ceil(s.Lead.Days())) }
