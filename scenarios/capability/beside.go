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
	// beside is how many runs tell how much more or less another case carries, and
	// glances how many of them are looked at first.
	beside, glanceRamps = 8, 2
	// besideTries are the ramps, one after another, for a case that carries much more or
	// less than is expected; then it is tried as if nothing were known. guessTries are
	// those before scouts look where nothing was known.
	besideTries, guessTries = 4, 2
	// besideLate are the first years of a ramp that are left out, in which next to no year
	// comes near the target, with one case as with the other. Without the first of eight
	// the same runs told the same move, to a thousandth, and how far off it may be came out
	// 3 % less; without two 6 % more (the built-in plants and two others, mean of 30 cases).
	besideLate = 1
)

// besideTimer is a timer for cases beside the one that was tried closely. Where cake is
// hauled by contract, the first years of a ramp tell how much, and stay in.
func (found *Capability) besideTimer(s *study.Study) *timer {
	t := found.newTimer(s)
	t.own = found.own
	if !found.constant && len(s.File.Planning.Economy.Contracts) == 0 {
		t.late = besideLate
	}
	return t
}

// Beside finds what a case carries that differs little from one that was tried
// closely, and is expected to carry so many times as much, or 0 if that is not known.
// It takes few runs, as [Capability.Times] does: they meet the same chances as others of
// the plant itself, so that the curve is that of the plant, moved. How far off the move
// may be is among what is as likely. How much the plants differ in spread, or in when
// years begin to be missed, is not looked into.
func (found *Capability) Beside(ctx context.Context, s *study.Study, c study.Case, expected float64) (*Capability, error) {
	g := newGlance(c, expected, false)
	if expected == 0 {
		g = newGlance(c, 1, true)
	}
	if err := found.glance(ctx, s, []*glance{g}); err != nil {
		return nil, err
	}
	out, err := found.closer(ctx, s, []*glance{g})
	if err != nil {
		return nil, err
	}
	return out[0], nil
}

// glance is a first look at what a case carries, by a few of the ramps that tell it: it
// says about where the others are to be laid.
type glance struct {
	of        study.Case
	expected  float64 // how many times as much as the plant itself
	guess     bool    // that nothing has been seen of
	attempt   *attempt
	whole     *Capability // where nothing is left to look at more closely
	looked    int         // years simulated to see where an attempt lies
	simulated int         // years simulated for the glance
	alone     []string    // what was glanced at to know what is expected
	// seen says that the glance told how much more the case carries than the plant
	// itself, by moved, a logarithm.
	seen  bool
	moved float64
}

func newGlance(c study.Case, expected float64, guess bool) *glance {
	c.First, c.Years = 0, 0
	return &glance{of: c, expected: expected, guess: guess}
}

// glance looks at some cases, which differ little from the one that was tried closely.
func (found *Capability) glance(ctx context.Context, s *study.Study, list []*glance) error {
	if err := found.alike(ctx, s); err != nil {
		return err
	}
	t := found.besideTimer(s)
	for _, g := range list {
		g.attempt = newAttempt(Variant{Case: g.of, Expected: g.expected})
		g.attempt.keep = true
	}
	if found.own.done {
		if err := found.ahead(ctx, t, list); err != nil {
			return err
		}
	}
	for _, g := range list {
		a := g.attempt
		g.simulated += g.looked + a.simulated
		if a.done {
			g.seen, g.moved = true, a.times-found.own.laid-t.luck(len(a.years))
		}
	}
	return nil
}

// ahead sends cases up the first ramps. Where a mere guess was so wrong that they do not
// even tell by how much, and the next ones do not, scouts look: most changes move a plant
// by less than a ramp or two span, so that scouts at once would be sent for nothing.
func (found *Capability) ahead(ctx context.Context, t *timer, list []*glance) error {
	ramps := min(glanceRamps, len(found.own.years))
	var all, pending []*attempt
	for _, g := range list {
		all = append(all, g.attempt)
	}
	if err := t.until(ctx, all, ramps, guessTries); err != nil {
		return err
	}
	for _, g := range list {
		if g.guess && g.attempt.lost {
			if err := found.scout(ctx, t, g); err != nil {
				return err
			}
		}
		if g.whole == nil {
			pending = append(pending, g.attempt)
		}
	}
	return t.until(ctx, pending, ramps, besideTries)
}

// scout sees by scouts where a case is to be tried.
func (found *Capability) scout(ctx context.Context, t *timer, g *glance) error {
	f := finder{study: t.study, constant: found.constant}
	at, err := f.look(ctx, g.of)
	if err != nil {
		return err
	}
	g.looked = f.simulated
	if at.curve == nil {
		g.whole = &Capability{beside: true, Never: at.never, Simulated: g.looked + g.attempt.simulated}
		return nil
	}
	g.attempt.expected = math.Log(at.curve.Middle() / found.Curve.Middle())
	return nil
}

// closer finds what cases carry that were glanced at.
func (found *Capability) closer(ctx context.Context, s *study.Study, list []*glance) ([]*Capability, error) {
	t := found.besideTimer(s)
	var pending []*attempt
	for _, g := range list {
		if g.seen {
			pending = append(pending, g.attempt)
		}
	}
	if err := t.until(ctx, pending, len(found.own.years), besideTries); err != nil {
		return nil, err
	}
	out := make([]*Capability, len(list))
	for i, g := range list {
		var err error
		if out[i], err = found.closely(ctx, t, g); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// until sends variants up so many ramps each, until it is known what they carry or they
// have been tried so often.
func (t *timer) until(ctx context.Context, list []*attempt, ramps, tries int) error {
	for range tries {
		var pending []*attempt
		for _, a := range list {
			if !a.done || len(a.years) < ramps {
				pending = append(pending, a)
			}
		}
		if len(pending) == 0 {
			break
		}
		if err := t.attempt(ctx, pending, ramps, nil); err != nil {
			return err
		}
	}
	return nil
}

// closely is what a case carries by all its ramps. Where they do not tell, it is tried as
// if nothing were known.
func (found *Capability) closely(ctx context.Context, t *timer, g *glance) (*Capability, error) {
	a := g.attempt
	switch {
	case g.whole != nil:
		return g.whole, nil
	case !a.done:
		closely, err := Find(ctx, t.study, g.of, Fewest)
		if err != nil {
			return nil, err
		}
		closely.beside, closely.Profile = true, found.Profile
		closely.Simulated += g.looked + a.simulated
		return closely, nil
	}
	out := &Capability{beside: true, Runs: a.runs, Profile: found.Profile, Simulated: g.looked + a.simulated}
	out.Curve = found.Curve.Scaled(math.Exp(a.times - found.own.times))
	out.Likely = append([]*threshold.Curve{out.Curve}, t.likely(found, a)...)
	return out, nil
}

// about is what a case carries by a glance: the curves are those of the plant, all moved by
// as much, for so few ramps do not tell how far off that is; nil where the glance tells
// nothing.
func (found *Capability) about(g *glance) *Capability {
	switch {
	case g.whole != nil:
		return g.whole
	case !g.seen:
		return nil
	}
	out := &Capability{beside: true, Runs: g.attempt.runs, Profile: found.Profile}
	for _, c := range found.Likely {
		out.Likely = append(out.Likely, c.Scaled(math.Exp(g.moved)))
	}
	out.Curve = out.Likely[0]
	return out
}

// alike sends the plant itself up the ramps that others are compared on, once.
func (found *Capability) alike(ctx context.Context, s *study.Study) error {
	if found.own != nil {
		return nil
	}
	ramps := beside
	if found.constant {
		ramps = 1
	}
	own := newAttempt(Variant{Case: found.of, Expected: 1})
	if err := found.besideTimer(s).until(ctx, []*attempt{own}, ramps, besideTries); err != nil {
		return err
	}
	found.own, found.ownYears = own, own.simulated
	return nil
}

// likely returns the curves of a variant that are as likely as that found: those of the
// plant, each moved by a value as likely as the one found: Student's t, for the ramps are few.
// Those of one place are by the same chance of all variants beside a plant: these meet the
// same luck, so that what is carried with one is off as it is with another.
func (t *timer) likely(found *Capability, a *attempt) []*threshold.Curve {
	moved, apart := a.times-found.own.times, t.apart(found.own, a)
	degrees := float64(max(1, len(apart)-1))
	source := rand.NewPCG(uint64(found.Curve.Failed), uint64(found.Curve.Trials))
	r, wide := rand.New(source), distuv.ChiSquared{K: degrees, Src: source}
	out := make([]*threshold.Curve, len(found.Likely)-1)
	for i, c := range found.Likely[1:] {
		by := 0.0
		for _, ramp := range apart {
			by += ramp * r.NormFloat64()
		}
		out[i] = c.Scaled(math.Exp(moved + by*math.Sqrt(degrees/wide.Rand())))
	}
	return out
}

// apart is what pairs of ramps in the same replications, of two attempts, say each of how
// far off the move from one to the other is: parts that add up to it if each were met
// once more or once less, at random (the infinitesimal jackknife; Efron and Stein 1981, from
// memory). The root of the sum of their squares is its standard deviation.
func (t *timer) apart(from, to *attempt) []float64 {
	n := float64(len(to.years))
	before, out := t.says(from), t.says(to)
	for i := range out {
		out[i] = (out[i] - before[i]) * math.Sqrt(n/max(1, n-1))
	}
	return out
}
