package capability

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/replicate"
)

// States are what a plant carries with one set of changes in force or another. Each
// is found once for all questions about a study, beside the plant with all of the
// file's own changes: they meet the same chances, so that what they differ by is
// theirs.
type States struct {
	*findings
	// By this question: what was used, and what was glanced at.
	used    map[string]*Capability
	glanced map[string]*glance
}

// findings are what has been found.
type findings struct {
	study *study.Study
	own   []plant.Change // the file's
	// quantiles of the uncertain inputs, nil where each run draws them.
	quantiles []float64
	main      *Capability
	known     map[string]*Capability
	glances   map[string]*glance
	footings  map[string]*footing // by the changes in force with them
	rests     map[string]*footing // by state, that which it was found beside
	demand    []Demand            // by growth scenario
	// odds are those of each growth scenario under one state throughout, once asked for.
	odds map[*Capability][]Odds
}

// StatesOf finds what the plant of a study carries in so many runs up the ramp, with
// all of its file's changes in force. Others are found when they are asked for.
func StatesOf(ctx context.Context, s *study.Study, runs int) (*States, error) {
	return StatesAt(ctx, s, nil, runs)
}

// statesKey is that under which a study keeps what was found.
type statesKey struct {
	runs int
	at   string // the quantiles
}

// climbKey is that under which a study keeps the way up its own ramps, by quantiles.
type climbKey string

// climbed tries the plant of a study in so many runs, which go on from those in which it
// was tried before.
func climbed(ctx context.Context, s *study.Study, quantiles []float64, runs int) (*Capability, error) {
	kept, err := s.Once(climbKey(fmt.Sprint(quantiles)), func() (any, error) {
		return newClimb(s, study.Case{Quantiles: quantiles}), nil
	})
	if err != nil {
		return nil, err
	}
	return kept.(*climb).upTo(ctx, runs)
}

// demands are the production of each growth scenario.
func demands(ctx context.Context, s *study.Study, quantiles []float64) ([]Demand, error) {
	return replicate.Run(ctx, len(s.File.Planning.Growths), s.Workers, func(_ context.Context, g int) (Demand, error) {
		if quantiles != nil {
			return DemandAt(s.File, g, quantiles), nil
		}
		return DemandOf(s.File, g), nil
	}, nil)
}

// StatesAt finds the same with the uncertain inputs at quantiles of their distributions,
// as for [study.Case], in place of drawn ones.
func StatesAt(ctx context.Context, s *study.Study, quantiles []float64, runs int) (*States, error) {
	kept, err := s.Once(statesKey{runs, fmt.Sprint(quantiles)}, func() (any, error) {
		k := &findings{study: s, own: s.File.Model.Changes, quantiles: quantiles, known: map[string]*Capability{}, glances: map[string]*glance{}, rests: map[string]*footing{}, odds: map[*Capability][]Odds{}}
		demand := study.Beside(ctx, s, func(ctx context.Context) ([]Demand, error) { return demands(ctx, s, quantiles) })
		var err, besideIt error
		k.main, err = climbed(ctx, s, quantiles, runs)
		k.demand, besideIt = demand()
		if err = cmp.Or(err, besideIt); err != nil {
			return nil, err
		}
		k.settle()
		return k, nil
	})
	if err != nil {
		return nil, err
	}
	st := &States{kept.(*findings), map[string]*Capability{}, map[string]*glance{}}
	_, err = st.With(ctx, st.own)
	return st, err
}

// settle notes the plant of the study, which is the footing of others.
func (k *findings) settle() {
	key := describe(k.own).key()
	k.known[key] = k.main
	k.footings = map[string]*footing{key: {k.main, k.own}}
}

// Main is what is carried with all of the file's changes in force.
func (st *States) Main() *Capability { return st.main }

// Demand is the production of each growth scenario.
func (st *States) Demand(growth int) Demand { return st.demand[growth] }

// Simulated counts the years simulated, warm-ups included, of what this question asked
// for, whichever question asked first.
func (st *States) Simulated() int {
	n, on := 0, map[*footing]bool{}
	for key, c := range st.used {
		n += c.Simulated
		on[st.rests[key]] = true
	}
	for key, g := range st.glanced {
		on[st.rests[key]] = true
		if st.used[key] == nil {
			n += g.simulated
		}
	}
	for f := range on {
		if f != nil {
			n += f.ownYears
		}
	}
	return n
}

// With returns what is carried with some changes in force and no others, whatever
// their dates.
func (st *States) With(ctx context.Context, changes []plant.Change) (*Capability, error) {
	if err := st.Ahead(ctx, [][]plant.Change{changes}); err != nil {
		return nil, err
	}
	return st.known[describe(changes).key()], nil
}

// Ahead finds what is carried with each of some sets of changes in force, all of them
// side by side.
func (st *States) Ahead(ctx context.Context, sets [][]plant.Change) error {
	var unknown [][]plant.Change
	var keys []string
	for _, changes := range sets {
		if key := describe(changes).key(); st.known[key] == nil && !slices.Contains(keys, key) {
			unknown, keys = append(unknown, changes), append(keys, key)
		}
	}
	if err := st.find(ctx, unknown); err != nil {
		return err
	}
	for _, changes := range sets {
		key := describe(changes).key()
		st.used[key] = st.known[key]
		st.mark(key)
	}
	return nil
}

// About returns what is carried with some changes in force and no others, by a glance at
// it: how far off that may be is not among what is as likely.
func (st *States) About(ctx context.Context, changes []plant.Change) (*Capability, error) {
	key := describe(changes).key()
	if key == describe(st.own).key() {
		return st.With(ctx, changes)
	}
	foot, err := st.footingOf(ctx, changes)
	if err != nil {
		return nil, err
	}
	if foot == nil {
		return st.With(ctx, changes)
	}
	if err := st.look(ctx, foot, [][]plant.Change{changes}); err != nil {
		return nil, err
	}
	st.mark(key)
	if c := foot.about(st.glances[key]); c != nil {
		return c, nil
	}
	return st.With(ctx, changes)
}

// mark notes that a state was used, and those that it rests on.
func (st *States) mark(key string) {
	if foot := st.rests[key]; foot != nil {
		on := describe(foot.changes).key()
		st.used[on] = st.known[on]
	}
	if g := st.glances[key]; g != nil {
		st.glanced[key] = g
		for _, one := range g.alone {
			st.mark(one)
		}
	}
}

// find finds what is carried with each of some sets of changes.
func (st *States) find(ctx context.Context, sets [][]plant.Change) error {
	beside := map[*footing][][]plant.Change{}
	var order []*footing
	for _, changes := range sets {
		key := describe(changes).key()
		if st.known[key] != nil { // it is the footing of one before
			continue
		}
		foot, err := st.footingOf(ctx, changes)
		if err != nil {
			return err
		}
		if foot == nil {
			if st.known[key], err = st.alone(ctx, changes); err != nil {
				return err
			}
			continue
		}
		if beside[foot] == nil {
			order = append(order, foot)
		}
		beside[foot] = append(beside[foot], changes)
	}
	for _, foot := range order {
		if err := st.findBeside(ctx, foot, beside[foot]); err != nil {
			return err
		}
	}
	return nil
}

// findBeside finds what is carried with each of some sets of changes, beside another plant.
func (st *States) findBeside(ctx context.Context, foot *footing, sets [][]plant.Change) error {
	if err := st.look(ctx, foot, sets); err != nil {
		return err
	}
	var list []*glance
	for _, changes := range sets {
		list = append(list, st.glances[describe(changes).key()])
	}
	found, err := foot.closer(ctx, st.study, list)
	if err != nil {
		return err
	}
	for i, changes := range sets {
		st.known[describe(changes).key()] = found[i]
	}
	return nil
}

// look glances at what is carried with each of some sets of changes beside another plant,
// if that was not done before.
func (st *States) look(ctx context.Context, foot *footing, sets [][]plant.Change) error {
	var list []*glance
	var keys []string
	for _, changes := range sets {
		d := describe(changes)
		if st.glances[d.key()] != nil || slices.Contains(keys, d.key()) {
			continue
		}
		expected, guess, alone, err := st.expected(ctx, foot, changes, d)
		if err != nil {
			return err
		}
		g := newGlance(st.inForce(changes), expected, guess)
		g.alone = alone
		list, keys = append(list, g), append(keys, d.key())
	}
	if len(list) == 0 {
		return nil
	}
	if err := foot.glance(ctx, st.study, list); err != nil {
		return err
	}
	for i, key := range keys {
		st.glances[key], st.rests[key] = list[i], foot
	}
	return nil
}

// inForce is the case with some changes in force and no others.
func (st *States) inForce(changes []plant.Change) study.Case {
	c := study.Case{Quantiles: st.quantiles, Alter: func(m *plant.Model) { m.Changes = m.Changes[len(st.own):] }}
	for _, change := range changes {
		change.Date, change.Lead, change.Trigger = st.study.File.Model.Start, calendar.Span{}, plant.Trigger{}
		c.Steps = append(c.Steps, facilityfile.Step{Change: change})
	}
	return c
}

// vesselPower is by what power of their number vessels are expected to carry more: what
// is beside them does not grow with them. On the built-in plants 0.77 to 0.94 was found.
// It says where ramps are laid and no more; laid in proportion to the vessels, most were
// laid a second time.
const vesselPower = 0.85

// expected is how many times as much a state is expected to carry as that beside which it
// is found: by its vessels, and by what each of its other changes does by itself beside that
// one. That is a guess where nothing is known of these. It returns what was glanced at
// for it.
func (st *States) expected(ctx context.Context, foot *footing, changes []plant.Change, d description) (times float64, guess bool, alone []string, err error) {
	on := describe(foot.changes)
	m := &st.study.File.Model
	byVessels := math.Pow(m.Worth(m.Vessels.VesselsWith(changes))/m.Worth(m.Vessels.VesselsWith(foot.changes)), vesselPower)
	more, only := added(foot.changes, changes)
	if !only || len(more) == 1 && d.vessels == on.vessels && d.classes == on.classes {
		return byVessels, true, nil, nil
	}
	var sets [][]plant.Change
	for _, c := range more {
		sets = append(sets, slices.Concat(foot.changes, []plant.Change{c}))
	}
	if err := st.look(ctx, foot, sets); err != nil {
		return 0, false, nil, err
	}
	times = byVessels
	for _, set := range sets {
		key := describe(set).key()
		g := st.glances[key]
		if alone = append(alone, key); !g.seen {
			return byVessels, true, alone, nil
		}
		times *= math.Exp(g.moved)
	}
	return times, false, alone, nil
}
