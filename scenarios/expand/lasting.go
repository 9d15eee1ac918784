package expand

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// lasting is what is known of how long configurations last.
type lasting struct {
	*lattice
	states  *capability.States
	model   *plant.Model
	target  facilityfile.Target
	growths growths
	steps   []facilityfile.Step
	helps   []bool // by step: it can only help
	years   int
	fed     []float64 // by year, kg dry, in the mean of the growth scenarios
	hauled  float64   // of it, kg dry per day in the mean of a year, that growth does not change
	// busiest is what a day of the busiest month brings, over the mean.
	busiest float64
	// triggered says that the file has changes that wait for a sign.
	triggered bool
	plant     func(config int) (*plant.Plant, error)
	needs     []plant.Needs // of the plant as it is, then with each step by itself

	order []int                // configurations of which it is known
	bases []int                // configurations looked at, closely or by a glance
	last  []int                // by configuration, the last year kept, or unknown
	about map[int]sight        // by configuration, what a glance shows
	odds  []capability.Odds    // by configuration, over the growth scenarios; nil if unknown
	found [][]capability.Stage // by configuration, perhaps by a glance; nil if unknown
	short []capability.Lack
	// asIsMissed is the first year that the plant as it is surely misses.
	asIsMissed int
	sustain    [][]plant.Capacity    // by configuration, once asked for
	fails      [][]plant.Capacity    // the same, see capacitiesShort
	ceilings   map[int]*ceiling      // the same, see atMost
	times      map[carriedIn]float64 // the same, see needed
	days       []calendar.Date       // from which on the file's own changes make the plant another
}

const unknown = -2

// sight is what a glance at a configuration shows.
type sight struct {
	last int // the last year kept
	odds capability.Odds
}

func newLasting(l *lattice, s *study.Study, states *capability.States, g growths) (*lasting, error) {
	f := s.File
	k := &lasting{
		lattice: l, states: states, model: &f.Model, target: f.Planning.Target, growths: g, steps: f.Planning.Catalogue,
		years: f.Model.Years, fed: make([]float64, f.Model.Years), triggered: s.Triggered(&study.Case{}),
		last: make([]int, l.size), odds: make([]capability.Odds, l.size), found: make([][]capability.Stage, l.size), short: make([]capability.Lack, l.size),
		sustain: make([][]plant.Capacity, l.size), fails: make([][]plant.Capacity, l.size), ceilings: map[int]*ceiling{}, times: map[carriedIn]float64{}, about: map[int]sight{},
	}
	for i, growth := range g.places {
		asIs, err := s.Plant(&study.Case{Growth: growth})
		if err != nil {
			return nil, err
		}
		k.hauled = hauled(asIs)
		for year, kg := range fedByYear(asIs) {
			k.fed[year] += g.weights[i] * kg
		}
		k.busiest, k.days = busiest(asIs), changed(asIs)
	}
	for _, step := range k.steps {
		k.helps = append(k.helps, helps(step, k.model))
	}
	for c := range k.last {
		k.last[c] = unknown
	}
	k.plant = func(config int) (*plant.Plant, error) {
		return s.Plant(&study.Case{Growth: g.main(), Steps: k.inForce(config)})
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
	most, err := k.atMost(config)
	if err != nil {
		return 0, err
	}
	for c, seen := range k.about {
		if c == config || k.within(config, c) && k.onlyAdds(config, c) {
			most = min(most, seen.last)
		}
	}
	return max(kept, min(missed-1, most)), nil
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
// holding less is diverted, but what is held instead may wait too long. A contract may
// take the place of a better one.
func helps(s facilityfile.Step, m *plant.Model) bool {
	faster := s.ScreenCapacity == 0 || s.ScreenCapacity >= m.Screening.Settings.Capacity
	return faster && s.CakeSolids >= 0 && s.Holding == 0 && longer(s.Hours, m) && (!s.Contract.On() || !m.Contracted())
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

// glance finds about how long a configuration lasts by a few runs, and rather too long
// than too short, for nothing is left for how far off they are. That steers the search:
// no plan is shown that rests on it.
func (k *lasting) glance(ctx context.Context, config int) error {
	stages, err := k.states.StagesAbout(ctx, k.changes(config))
	if err != nil {
		return err
	}
	odds := k.growths.mix(k.states.OddsThrough(stages))
	k.about[config], k.found[config] = sight{k.lastKept(odds, capability.HighEnd), odds}, stages
	k.bases = append(k.bases, config)
	return nil
}

// lastBy returns the last year that a configuration that was looked at keeps.
func (k *lasting) lastBy(config int) int {
	if k.last[config] != unknown {
		return k.last[config]
	}
	return k.about[config].last
}

// changes are those of a configuration, in force.
func (k *lasting) changes(config int) []plant.Change {
	var out []plant.Change
	for _, s := range k.inForce(config) {
		out = append(out, s.Change)
	}
	return out
}

// simulate finds how long a configuration lasts: through the last year before one of
// which it may be, for all that is known, that more runs miss it than the target
// allows.
func (k *lasting) simulate(ctx context.Context, config int) error {
	stages, err := k.states.Stages(ctx, k.changes(config))
	if err != nil {
		return err
	}
	odds := k.growths.mix(k.states.OddsThrough(stages))
	k.found[config] = stages
	k.odds[config] = odds
	k.learn(config, k.lastKept(odds, capability.HighEnd))
	k.short[config] = k.shortAfter(config, k.last[config])
	if config == 0 {
		k.asIsMissed = k.lastKept(odds, capability.LowEnd) + 1
	}
	return nil
}

// shortAfter returns what is short with a configuration in the year after one.
func (k *lasting) shortAfter(config, year int) capability.Lack {
	in := k.found[config][0]
	for _, s := range k.found[config] {
		if s.After <= float64((year+1)*capability.Quarters) {
			in = s
		}
	}
	return capability.Shortage(in.Near(k.target.MissShare), k.target)
}

// lastKept returns the last year before the first of which the share of runs that
// miss it, or an end of its range, is more than the target allows.
func (k *lasting) lastKept(odds capability.Odds, of func(stats.Interval) float64) int {
	for year := range odds {
		if of(odds.Share(year).Interval()) > k.target.MissShare+capability.Rounding {
			return year - 1
		}
	}
	return k.years - 1
}

// learn notes the last year that a configuration keeps.
func (k *lasting) learn(config, last int) {
	if k.last[config] == unknown {
		k.order = append(k.order, config)
	}
	if slices.Contains(k.bases, config) {
		clear(k.ceilings) // by what was thought of it before
	} else {
		k.bases = append(k.bases, config)
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
