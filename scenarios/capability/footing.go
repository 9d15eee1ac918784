package capability

import (
	"context"
	"fmt"
	"slices"

	"loamcast/facility/plant"
	"loamcast/sim/threshold"
)

// footing is a plant beside which others are found, and the changes in force with it.
// Usually that is the plant of the study. Where some of that one's runs miss whatever
// comes in, no move of its curve tells what another carries: what they lack, one change
// may bring, as drier cake, and another not at all, as more vessels. What can be told
// beside a plant without such runs is then told beside the first that changes of one kind
// make of it.
type footing struct {
	*Capability
	changes []plant.Change
}

// level reports whether others can be told beside a plant.
func (found *Capability) level() bool { return found.Curve != nil && found.Curve.Background == 0 }

// footingOf returns the plant beside which one with some changes in force is found; nil
// for none.
func (st *States) footingOf(ctx context.Context, changes []plant.Change) (*footing, error) {
	switch {
	case st.main.level():
		return st.footings[describe(st.own).key()], nil
	case st.main.Curve == nil:
		return nil, nil
	}
	groups, _ := kinds(st.own, changes)
	for _, kind := range groups {
		with := slices.Concat(st.own, kind)
		key := describe(with).key()
		if key == describe(changes).key() { // it is made of these alone
			return nil, nil
		}
		if st.known[key] == nil {
			if err := st.find(ctx, [][]plant.Change{with}); err != nil {
				return nil, err
			}
		}
		if st.known[key].level() {
			if st.footings[key] == nil {
				st.footings[key] = &footing{st.known[key], with}
			}
			return st.footings[key], nil
		}
	}
	return nil, nil
}

// kinds are the changes that come beside some others, in groups of those that do the same
// thing, and whether they come beside all of those.
func kinds(own, changes []plant.Change) (out [][]plant.Change, all bool) {
	left := slices.Clone(own)
	var names []string
	for _, c := range changes {
		if at := slices.Index(left, c); at >= 0 {
			left = slices.Delete(left, at, at+1)
			continue
		}
		name := describe([]plant.Change{c}).rest
		if name == "" {
			name = fmt.Sprint("vessels of class ", c.Class)
		}
		at := slices.Index(names, name)
		if at < 0 {
			at, names, out = len(names), append(names, name), append(out, nil)
		}
		out[at] = append(out[at], c)
	}
	return out, len(left) == 0
}

// alone finds what a plant carries that stands beside no other. Where some of the
// runs of the plant of the study miss whatever comes in, changes of several kinds are held
// to do no more against that than each kind by itself, which is nothing here.
func (st *States) alone(ctx context.Context, changes []plant.Change) (*Capability, error) {
	if st.main.Curve == nil {
		return Find(ctx, st.study, st.inForce(changes), Fewest)
	}
	groups, all := kinds(st.own, changes)
	if all && len(groups) > 1 {
		return st.main.again(), nil
	}
	c := newClimb(st.study, st.inForce(changes))
	if all && len(groups) == 1 && describe(groups[0][:1]).rest == "" { // more vessels mend no load
		c.now.fit = threshold.FitExpecting
	}
	return c.upTo(ctx, len(st.main.Runs))
}

// again is what a plant carries, for a second one that carries the same and took no runs.
func (found *Capability) again() *Capability {
	return &Capability{Curve: found.Curve, Likely: found.Likely, Profile: found.Profile, Never: found.Never, Runs: found.Runs, of: found.of, constant: found.constant}
}

// Background is the share of years that a plant misses whatever comes in.
func (found *Capability) Background() Sample {
	if found.Curve == nil {
		return Sample{0}
	}
	var out Sample
	for _, c := range found.Likely {
		out = append(out, c.Background)
	}
	return out
}
