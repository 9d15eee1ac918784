package capability

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"sync"

	"loamcast/scenarios/study"
	"loamcast/sim/threshold"
)

// climb is the way up the ramps of one case, which goes on from where it was left: a
// look by few runs is the beginning of the answer by more. It is safe for concurrent use.
type climb struct {
	of study.Case

	mu  sync.Mutex
	now ascent
}

// ascent is how far a climb has come. Its trials are shared by those that go on from it.
type ascent struct {
	finder
	fit      func([][]threshold.Trial) (*threshold.Curve, error)
	seen     *sight // nil before the scouts
	curve    threshold.Curve
	spread   float64
	all      [][]Trial // by replication
	oneSided int       // ramps of which all years went one way
}

func newClimb(s *study.Study, c study.Case) *climb {
	c.First, c.Years = 0, 0
	return &climb{of: c, now: ascent{finder: finder{study: s}, fit: threshold.Fit, spread: guess}}
}

// upTo tries the case in so many runs, of which it has those that it was tried in before.
func (c *climb) upTo(ctx context.Context, runs int) (*Capability, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	at, keep := c.now, c.keep
	if runs < batch || len(at.all) > runs { // that is not on this way, or behind: as if nothing were known
		at, keep = newClimb(at.study, c.of).now, func(ascent) {}
		at.fit = c.now.fit
	}
	if at.seen == nil {
		var err error
		if at.seen, err = at.look(ctx, c.of); err != nil {
			return nil, err
		}
		if at.seen.curve != nil {
			at.curve = *at.seen.curve
		}
		keep(at)
	}
	found := &Capability{Never: at.seen.never, of: c.of, constant: at.constant}
	if at.seen.curve != nil {
		for len(at.all) < runs {
			next := len(at.all) + at.next()
			if err := at.ramp(ctx, c.of, min(next, runs)); err != nil {
				return nil, err
			}
			if next <= runs { // more runs would come the same way
				keep(at)
			}
		}
		curve := at.curve
		found.Curve, found.Runs = &curve, at.all
		found.Likely = append([]*threshold.Curve{found.Curve}, found.Curve.Resample(Resamples)...)
		found.Profile = newProfile(found.Curve, found.Runs)
	}
	found.Simulated = at.simulated
	return found, nil
}

// keep keeps how far a climb has come.
func (c *climb) keep(at ascent) {
	at.all = slices.Clip(at.all)
	c.now = at
}

// next is how many runs go up the next ramp. Of very many there are an eighth of those
// before, for these know well where it is to lie, and each fit takes all of them.
func (at *ascent) next() int {
	const part = 8
	return max(batch, len(at.all)/part/batch*batch)
}

// ramp goes up one ramp more, laid about the curve as it is known, so that there are so
// many runs.
func (at *ascent) ramp(ctx context.Context, c study.Case, runs int) error {
	r := rampAbout(at.curve.Middle(), at.spread, at.constant)
	if at.curve.Background > 0 {
		// How many miss whatever comes in is to be known of what comes, not only of what is
		// nearly too much.
		r.from = min(r.from, at.study.File.Model.Feed.Base)
	}
	trials, err := at.try(ctx, c, r, len(at.all), runs)
	if err != nil {
		return err
	}
	at.all = append(at.all, trials...)
	next, err := at.fit(observed(at.all))
	switch {
	case errors.Is(err, threshold.ErrOneSided):
		// The scouts were wrong by more than the ramp: look on from its middle.
		reach := math.Sqrt(r.to / r.from)
		if trials[0][0].Missed {
			reach = 1 / reach
		}
		at.curve = *at.curve.Scaled(reach)
		at.all = nil
		if at.oneSided++; at.oneSided > mostOneSided {
			return fmt.Errorf("%w, nor where it was seen first", ErrApart)
		}
	case err != nil:
		return err
	default:
		at.curve = *next
		at.spread = min(max(next.Spread(), leastSpread), mostSpread)
	}
	return nil
}
