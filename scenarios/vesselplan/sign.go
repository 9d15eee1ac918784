package vesselplan

import (
	"context"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/stats"
)

// Sign is what to watch so that the order of vessels need not rest on a forecast.
type Sign struct {
	capability.Sign
	Now float64 // the mean production of the first year, kg dry per day
	// InUse is the part of the vessels in use in the fullest month of a year of the
	// production that is the sign, 0…1.
	InUse float64
	// Held is the most cake held at once in such a year, kg dry, and Full the most of
	// the holding that it fills, 0…1.
	Held, Full float64
}

// signRuns of two years each tell what is seen beside the sign.
const signRuns = 12

// sign finds what to watch; nil where the capability is not known or no sign comes
// early enough.
func (p *planner) sign(ctx context.Context, a *Answer) (*Sign, error) {
	if p.stages == nil || !a.Planned().Rows[0].RunsShort(a.Horizon) || !a.Planned().VesselsHelp() {
		return nil, nil
	}
	futures, err := capability.FuturesOf(ctx, p.study, p.demand[0].Mean(0))
	if err != nil {
		return nil, err
	}
	found := futures.Sign(p.stages, a.Lead)
	if found == nil {
		return nil, nil
	}
	years, simulated, err := capability.Even(ctx, p.study, study.Case{}, found.Production, signRuns)
	if err != nil {
		return nil, err
	}
	p.simulated += simulated
	s := Sign{Sign: *found, Now: p.demand[0].Mean(0)}
	s.InUse = middle(years, func(y *capability.Sums) float64 { return y.InUse })
	s.Held = middle(years, func(y *capability.Sums) float64 { return y.Held })
	s.Full = middle(years, func(y *capability.Sums) float64 { return y.Full })
	return &s, nil
}

// middle is the median of a number of some years.
func middle(years []capability.Trial, of func(*capability.Sums) float64) float64 {
	all := make([]float64, len(years))
	for i := range years {
		all[i] = of(years[i].Sums)
	}
	return stats.Quantile(all, 0.5)
}
