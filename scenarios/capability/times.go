package capability

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"loamcast/scenarios/study"
)

// Variant is a plant that differs little from one that was tried closely.
type Variant struct {
	study.Case
	// Expected is how many times as much it is expected to carry, positive.
	Expected float64
	// From is the replication of its first ramp; those of the others follow.
	From int
}

const (
	// A variant's ramp is laid for a spread of at least this, so that it meets what is
	// carried although that is not just as expected.
	variantSpread = 0.01
	// variantTries are the ramps, one after another, for a variant that differs by more.
	variantTries = 12
	// mostTold is the part of what ramps can tell at the most, [timer.half], beyond which
	// next to none of their years are near the target, or next to all are.
	mostTold = 0.75
	// Years far beyond the target say no more than those with so many times what it allows.
	mostStrain = 3.0
)

// ErrApart says that what a plant carries in some replication is nowhere near what it
// does in all: its years lean on each other, as where what was once left over is never
// caught up with.
var ErrApart = errors.New("capability: what the plant carries in one run is nowhere near what it does in all")

// Times finds how many times as much as a plant its variants carry, each by a few ramps,
// two or so. The plant itself, the case that was tried closely, goes up the same ramps in
// the same replications: what it carries more or less in them than in all is their luck,
// and not counted. A few years that miss or do not would tell it in steps; here it is
// how near to the target they come that tells it, so that it moves with what moves the
// plant. How much the variants differ in spread is not looked into. One that nothing
// within reach strains carries +Inf times as much, one that all does nothing. Its error
// is [ErrApart] where the plant itself is not found.
// It returns the years simulated, too, warm-ups included.
func (found *Capability) Times(ctx context.Context, s *study.Study, of study.Case, variants []Variant, ramps int, progress func(done, total int)) ([]float64, int, error) {
	t := found.newTimer(s)
	var list []*attempt
	for i := range variants {
		list = append(list, newAttempt(variants[i]))
	}
	same := map[int]*attempt{} // the plant itself, by first replication
	for _, v := range variants {
		if same[v.From] == nil {
			same[v.From] = newAttempt(Variant{of, 1, v.From})
			list = append(list, same[v.From])
		}
	}
	for try := range variantTries {
		if try > 0 {
			progress = nil
		}
		pending := slices.DeleteFunc(slices.Clone(list), func(a *attempt) bool { return a.done })
		if err := t.attempt(ctx, pending, ramps, progress); err != nil {
			return nil, t.simulated, err
		}
	}
	out := make([]float64, len(variants))
	for i, a := range list[:len(variants)] {
		own := same[a.From]
		if !own.done {
			return nil, t.simulated, fmt.Errorf("%w, in replication %d", ErrApart, own.From)
		}
		out[i] = math.Exp(a.times - own.times)
	}
	return out, t.simulated, nil
}

// attempt is the search for what a variant carries.
type attempt struct {
	Variant
	expected float64 // logarithm of how many times as much
	laid     float64 // the same, about which its ramps were laid
	times    float64 // the same as found
	done     bool
	lost     bool // its ramps did not tell how far from there it is

	years     [][]lost // those it was found by, of each ramp
	keep      bool     // the trials, too
	runs      [][]Trial
	simulated int // years, warm-ups included
}

func newAttempt(v Variant) *attempt {
	v.First, v.Years = 0, 0
	return &attempt{Variant: v, expected: math.Log(v.Expected)}
}

// timer tells what variants carry by what years of the plant tried closely are like.
type timer struct {
	study          *study.Study
	middle, spread float64
	constant       bool   // nothing is left to chance
	response       []lost // the strain of a year in the mean, by the logarithm of production
	simulated      int
	// own is the plant itself on the ramps that variants go up; nil while it is not known.
	own  *attempt
	late int // years of a ramp that are left out, from the first on
}

func (found *Capability) newTimer(s *study.Study) *timer {
	t := &timer{study: s, constant: found.constant, middle: found.Curve.Middle(), spread: min(max(found.Curve.Spread(), variantSpread), mostSpread)}
	for _, run := range found.Runs {
		for _, trial := range run {
			t.response = append(t.response, lost{math.Log(trial.Load), trial.strain(s.File.Planning.Target)})
		}
	}
	t.response = monotone(t.response)
	return t
}

// attempt sends variants up so many ramps each, laid about what is expected; one that
// was found by fewer goes up the others of them. Where what is found is far from there it
// is expected the next time. Of what is found, what the plant itself carries more or less in
// the same replications is their luck, and says nothing of where the ramps lie.
func (t *timer) attempt(ctx context.Context, list []*attempt, ramps int, progress func(done, total int)) error {
	var runs []study.Run
	up, keep := map[*study.Case]ramp{}, map[*study.Case]bool{}
	for _, a := range list {
		if !a.done {
			a.laid, a.years, a.runs = a.expected, nil, nil
		}
		r := rampAbout(t.middle*math.Exp(a.laid), t.spread, t.constant).after(t.late)
		more := r.up(a.Case, a.From+len(a.years), ramps-len(a.years))
		for _, run := range more {
			up[run.Case], keep[run.Case] = r, a.keep
		}
		a.simulated += len(more) * (r.years + 1)
		t.simulated += len(more) * (r.years + 1)
		runs = append(runs, more...)
	}
	target := t.study.File.Planning.Target
	type climb struct {
		years  []lost
		trials []Trial
	}
	found, err := study.Each(ctx, t.study, runs, func(run *study.Result) (out climb, err error) {
		trials := up[run.Case].trials(run, t.study.File)
		for _, trial := range trials {
			out.years = append(out.years, lost{math.Log(trial.Load), trial.strain(target)})
		}
		if keep[run.Case] {
			out.trials = trials
		}
		return out, nil
	}, progress)
	if err != nil {
		return err
	}
	for _, a := range list {
		more := ramps - len(a.years)
		for _, c := range found[:more] {
			a.years, a.runs = append(a.years, c.years), append(a.runs, c.trials)
		}
		found = found[more:]
		by := t.told(a.years, a.laid)
		off := t.judge(a, by, t.luck(len(a.years)))
		switch {
		case a.done:
			a.times = a.laid + by
		case by > 0:
			a.times = math.Inf(1)
		default:
			a.times = math.Inf(-1)
		}
		a.expected = a.laid + off
	}
	return nil
}

// judge decides whether ramps that tell by so much tell what a variant carries, given the
// luck of their replications, and returns by how much it is to be expected elsewhere if not.
func (t *timer) judge(a *attempt, by, luck float64) (off float64) {
	off = by - luck
	if a.lost = math.Abs(by) > t.half()*mostTold; a.lost { // whatever their luck
		off = by
	}
	a.done = min(math.Abs(by), math.Abs(off)) < t.half()/2
	return off
}

// luck is by how much the logarithm of what the plant itself carries, in the first of the
// replications that variants meet, is above what its ramps were laid about.
func (t *timer) luck(ramps int) float64 {
	if t.own == nil {
		return 0
	}
	return t.told(t.own.years[:min(ramps, len(t.own.years))], t.own.laid)
}

// half of the logarithm of how much a ramp rises.
func (t *timer) half() float64 { return (rampEnd(t.constant) - rampLow) / 2 * t.spread }

// told returns by how much the logarithm of what a variant carries is above what its
// ramps were laid about.
func (t *timer) told(ramps [][]lost, laid float64) float64 {
	return t.times(slices.Concat(ramps...), laid, t.half())
}

// times returns by how much the logarithm of what a variant carries is above what is
// expected, up to so much, if its years are strained as these are: the plant tried closely
// would be strained as much in the mean at productions less by it.
func (t *timer) times(years []lost, expected, most float64) float64 {
	excess := func(by float64) float64 { // of the plant above the variant
		sum := 0.0
		for _, y := range years {
			sum += t.strainAt(y.at-expected-by) - y.share
		}
		return sum
	}
	low, high := -most, most
	const steps = 40
	for range steps {
		if by := (low + high) / 2; excess(by) > 0 {
			low = by
		} else {
			high = by
		}
	}
	return (low + high) / 2
}

// says returns by how much each ramp of a variant moves what was found of it: by how much
// its years are strained more or less than the plant tried closely would be, over how
// much a move changes that in all of them.
func (t *timer) says(a *attempt) []float64 {
	step := t.spread / 10
	out, slope := make([]float64, len(a.years)), 0.0
	for i, ramp := range a.years {
		for _, y := range ramp {
			at := y.at - a.times
			out[i] += t.strainAt(at) - y.share
			slope += (t.strainAt(at+step) - t.strainAt(at-step)) / (2 * step)
		}
	}
	for i := range out {
		if slope > 0 {
			out[i] /= slope
		}
	}
	return out
}

// strainAt is the response at a production, between those tried in a straight line.
func (t *timer) strainAt(at float64) float64 {
	list := t.response
	i, _ := slices.BinarySearchFunc(list, at, func(l lost, at float64) int { return cmp.Compare(l.at, at) })
	switch i {
	case 0:
		return list[0].share
	case len(list):
		return list[i-1].share
	}
	a, b := list[i-1], list[i]
	return a.share + (b.share-a.share)*(at-a.at)/(b.at-a.at)
}
