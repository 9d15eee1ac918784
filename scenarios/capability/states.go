package capability

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// States are what a plant carries with one set of changes in force or another. Each
// is found once for all questions about a study, beside the plant with all of the
// file's own changes: they meet the same chances, so that what they differ by is
// theirs.
type States struct {
	*findings
	used map[string]*Capability // by this question
}

// findings are what has been found.
type findings struct {
	study *study.Study
	own   []plant.Change // the file's
	// quantiles of the uncertain inputs, nil where each run draws them.
	quantiles []float64
	main      *Capability
	known     map[string]*Capability
	demand    []Demand // by growth scenario
}

// StatesOf finds what the plant of a study carries in so many runs up the ramp, with
// all of its file's changes in force. Others are found when they are asked for.
func StatesOf(ctx context.Context, s *study.Study, runs int) (*States, error) {
	return StatesAt(ctx, s, nil, runs)
}

// StatesAt finds the same with the uncertain inputs at quantiles of their distributions,
// as for [study.Case], in place of drawn ones.
func StatesAt(ctx context.Context, s *study.Study, quantiles []float64, runs int) (*States, error) {
	type key struct {
		runs int
		at   string
	}
	kept, err := s.Once(key{runs, fmt.Sprint(quantiles)}, func() (any, error) {
		k := &findings{study: s, own: s.File.Model.Changes, quantiles: quantiles, known: map[string]*Capability{}}
		for g := range s.File.Planning.Growths {
			d := DemandOf
			if quantiles != nil {
				d = func(f *facilityfile.File, growth int) Demand { return DemandAt(f, growth, quantiles) }
			}
			k.demand = append(k.demand, d(s.File, g))
		}
		var err error
		if k.main, err = Find(ctx, s, study.Case{Quantiles: quantiles}, runs); err != nil {
			return nil, err
		}
		k.known[describe(k.own).key()] = k.main
		return k, nil
	})
	if err != nil {
		return nil, err
	}
	st := &States{kept.(*findings), map[string]*Capability{}}
	_, err = st.With(ctx, st.own)
	return st, err
}

// Main is what is carried with all of the file's changes in force.
func (st *States) Main() *Capability { return st.main }

// Demand is the production of each growth scenario.
func (st *States) Demand(growth int) Demand { return st.demand[growth] }

// Simulated counts the years simulated, warm-ups included, of what this question asked
// for, whichever question asked first.
func (st *States) Simulated() int {
	n, beside := 0, false
	for _, c := range st.used {
		n += c.Simulated
		beside = beside || c.beside
	}
	if beside {
		n += st.main.ownYears
	}
	return n
}

// With returns what is carried with some changes in force and no others, whatever
// their dates.
func (st *States) With(ctx context.Context, changes []plant.Change) (*Capability, error) {
	d := describe(changes)
	c := st.known[d.key()]
	if c == nil {
		var err error
		if c, err = st.find(ctx, changes, d); err != nil {
			return nil, err
		}
		st.known[d.key()] = c
	}
	st.used[d.key()] = c
	return c, nil
}

func (st *States) find(ctx context.Context, changes []plant.Change, d description) (*Capability, error) {
	c := study.Case{Quantiles: st.quantiles, Alter: func(m *plant.Model) { m.Changes = m.Changes[len(st.own):] }}
	for _, change := range changes {
		change.Date, change.Lead, change.Trigger = st.study.File.Model.Start, calendar.Span{}, plant.Trigger{}
		c.Steps = append(c.Steps, facilityfile.Step{Change: change})
	}
	if st.main.Curve == nil {
		return Find(ctx, st.study, c, Fewest)
	}
	expected, err := st.expected(ctx, changes, d)
	if err != nil {
		return nil, err
	}
	return st.main.Beside(ctx, st.study, c, expected)
}

// expected is how many times as much as the main state a state is expected to carry:
// in proportion to its vessels, if all else is alike, or would be alike with as many
// vessels; and 0 if nothing is known.
func (st *States) expected(ctx context.Context, changes []plant.Change, d description) (float64, error) {
	main := describe(st.own)
	installed := st.study.File.Model.Vessels.Installed
	more := float64(installed+d.vessels) / float64(installed+main.vessels)
	switch {
	case d.rest == main.rest:
		return more, nil
	case d.vessels == main.vessels:
		return 0, nil
	}
	alike := []plant.Change{{Vessels: main.vessels, Places: main.places}}
	for _, c := range changes {
		c.Vessels, c.Places = 0, 0
		alike = append(alike, c)
	}
	found, err := st.With(ctx, alike)
	if err != nil || found.Curve == nil {
		return 0, err
	}
	return more * math.Exp(found.Curve.Mean-st.main.Curve.Mean), nil
}

// description tells changes by what they do.
type description struct {
	vessels, places int
	rest            string
}

func describe(changes []plant.Change) description {
	var d description
	var rest []string
	for _, c := range changes {
		d.vessels += c.Vessels
		d.places += c.Places
		c.Vessels, c.Places, c.Name, c.Date, c.Trigger, c.Lead = 0, 0, "", calendar.Date{}, plant.Trigger{}, calendar.Span{}
		if c != (plant.Change{}) {
			rest = append(rest, fmt.Sprintf("%+v", c))
		}
	}
	slices.Sort(rest)
	d.rest = strings.Join(rest, "; ")
	return d
}

func (d description) key() string { return fmt.Sprintf("%+v", d) }

// Stage is a part of the horizon in which a plant stays as it is.
type Stage struct {
	After float64 // so many quarters of the horizon
	*Capability
}

// Stages are those of the horizon where, beside the file's own changes, some others
// come into force, each its lead time after its date. None may wait for a sign.
func (st *States) Stages(ctx context.Context, more []plant.Change) ([]Stage, error) {
	m := &st.study.File.Model
	dated := slices.Concat(st.own, more)
	effect := func(c plant.Change) calendar.Date { return c.Lead.After(c.Date) }
	slices.SortStableFunc(dated, func(a, b plant.Change) int { return effect(b).DaysUntil(effect(a)) })
	var out []Stage
	until := func(c plant.Change) float64 { return QuartersUntil(m.Start, m.Years, effect(c)) }
	for n, after := 0, 0.0; after < float64(m.Years*Quarters); {
		for n < len(dated) && until(dated[n]) <= after {
			n++
		}
		found, err := st.With(ctx, dated[:n])
		if err != nil {
			return nil, err
		}
		out = append(out, Stage{after, found})
		if n == len(dated) {
			break
		}
		after = until(dated[n])
	}
	return out, nil
}

// Odds are those of each growth scenario through the stages.
func (st *States) Odds(ctx context.Context, more []plant.Change) ([]Odds, error) {
	stages, err := st.Stages(ctx, more)
	if err != nil {
		return nil, err
	}
	out := make([]Odds, len(st.demand))
	for g, d := range st.demand {
		out[g] = stages[0].Odds(d)
		for _, s := range stages[1:] {
			out[g] = out[g].Then(s.Odds(d), s.After)
		}
	}
	return out, nil
}

// Mix returns odds over the growth scenarios by their weights.
func (st *States) Mix(byGrowth []Odds) Odds {
	var weights []float64
	for _, g := range st.study.File.Planning.Growths {
		weights = append(weights, g.Weight)
	}
	return Mixed(byGrowth, weights)
}
