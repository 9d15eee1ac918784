package capability

import (
	"context"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/scenarios/study"
	"loamcast/sim/threshold"
)

const (
	// beside is how many runs tell how much more or less another case carries.
	beside = 8
	// besideTries are the ramps, one after another, for a case that carries much more or
	// less than is expected; then it is tried as if nothing were known.
	besideTries = 4
)

// Beside finds what a case carries that differs little from one that was tried
// closely, and is expected to carry so many times as much, or 0 if that is not known.
// It takes few runs, as [Capability.Times] does: they meet the same chances as others of
// the plant itself, so that the curve is that of the plant, moved. How far off the move
// may be is among what is as likely. How much the plants differ in spread, or in when
// years begin to be missed, is not looked into.
func (found *Capability) Beside(ctx context.Context, s *study.Study, c study.Case, expected float64) (*Capability, error) {
	c.First, c.Years = 0, 0
	out := &Capability{beside: true}
	if expected == 0 {
		f := finder{study: s, constant: found.constant}
		at, err := f.look(ctx, c)
		if err != nil {
			return nil, err
		}
		out.Simulated = f.simulated
		if out.Never = at.never; at.curve == nil {
			return out, nil
		}
		expected = at.curve.Load(0.5) / found.Curve.Load(0.5)
	}
	t := found.newTimer(s)
	if err := found.alike(ctx, t); err != nil {
		return nil, err
	}
	a := newAttempt(Variant{Case: c, Expected: expected})
	a.keep = true
	t.simulated = 0
	for try := 0; try < besideTries && !a.done; try++ {
		if err := t.attempt(ctx, []*attempt{a}, len(found.own.years), nil); err != nil {
			return nil, err
		}
	}
	out.Simulated += t.simulated
	if !a.done || !found.own.done {
		closely, err := Find(ctx, s, c, Fewest)
		if err != nil {
			return nil, err
		}
		closely.beside, closely.Profile = true, found.Profile
		closely.Simulated += out.Simulated
		return closely, nil
	}
	out.Runs, out.Profile = a.runs, found.Profile
	out.Curve = found.Curve.Scaled(math.Exp(a.times - found.own.times))
	out.Likely = append([]*threshold.Curve{out.Curve}, t.likely(found, a)...)
	return out, nil
}

// alike sends the plant itself up the ramps that others are compared on, once.
func (found *Capability) alike(ctx context.Context, t *timer) error {
	if found.own != nil {
		return nil
	}
	ramps := beside
	if found.constant {
		ramps = 1
	}
	own := newAttempt(Variant{Case: found.of, Expected: 1})
	for try := 0; try < besideTries && !own.done; try++ {
		if err := t.attempt(ctx, []*attempt{own}, ramps, nil); err != nil {
			return err
		}
	}
	found.own, found.ownYears = own, t.simulated
	return nil
}

// likely returns the curves of a variant that are as likely as that found: those of the
// plant, each moved by a value as likely as the one found: Student's t, for the ramps are few.
func (t *timer) likely(found *Capability, a *attempt) []*threshold.Curve {
	moved, off := a.times-found.own.times, t.off(found.own, a)
	by := distuv.StudentsT{Mu: moved, Sigma: off, Nu: float64(max(1, len(a.years)-1)), Src: rand.NewPCG(math.Float64bits(moved), math.Float64bits(off))}
	out := make([]*threshold.Curve, len(found.Likely)-1)
	for i, c := range found.Likely[1:] {
		out[i] = c.Scaled(math.Exp(by.Rand()))
	}
	return out
}

// off is the standard deviation of the move from one attempt to another in the same
// replications, by how much their pairs of ramps differ in what they say of it (the
// infinitesimal jackknife; Efron and Stein 1981, from memory).
func (t *timer) off(from, to *attempt) float64 {
	sum, n := 0.0, float64(len(to.years))
	before, after := t.says(from), t.says(to)
	for i := range after {
		sum += (after[i] - before[i]) * (after[i] - before[i])
	}
	return math.Sqrt(sum * n / max(1, n-1))
}
