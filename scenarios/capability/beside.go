package capability

import (
	"context"
	"errors"

	"loamcast/scenarios/study"
	"loamcast/sim/threshold"
)

// Beside finds what a case carries that differs little from one that was tried
// closely, and is expected to carry so many times as much, or 0 if that is not known. It takes fewer runs:
// they meet the same chances as the first runs of the other, so that the curve is
// that of the other, moved. How much the plants differ in spread, or in
// when years begin to be missed, is not looked into.
func (found *Capability) Beside(ctx context.Context, s *study.Study, c study.Case, expected float64) (*Capability, error) {
	f := finder{study: s, constant: found.constant}
	c.First, c.Years = 0, 0
	out := &Capability{}
	if expected == 0 {
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
	out.first = found.first.scaled(expected)
	trials, err := f.try(ctx, c, out.first, 0, beside)
	if err != nil {
		return nil, err
	}
	by, err := found.Curve.Shift(observed(found.Runs[:beside]), observed(trials))
	switch {
	case errors.Is(err, threshold.ErrOneSided):
		// It differs by more than was expected.
		if out, err = Find(ctx, s, c, Fewest); err != nil {
			return nil, err
		}
		out.Simulated += f.simulated
		out.Profile = found.Profile
		return out, nil
	case err != nil:
		return nil, err
	}
	out.Curve, out.Runs, out.Profile = found.Curve.Scaled(by), trials, found.Profile
	for _, curve := range found.Likely {
		out.Likely = append(out.Likely, curve.Scaled(by))
	}
	out.Simulated = f.simulated
	return out, nil
}
