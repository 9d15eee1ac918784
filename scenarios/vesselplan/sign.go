package vesselplan

import (
	"context"

	"loamcast/facility/plant"
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
	s.InUse = fullest(years, func(m *plant.Month) float64 { return m.Vessels.Mean / m.Vessels.Installed })
	s.Held = fullest(years, func(m *plant.Month) float64 { return m.Holding.Peak })
	s.Full = fullest(years, func(m *plant.Month) float64 { return m.Holding.Fullest })
	return &s, nil
}

// fullest is a measure of the month of a year in which it is highest, the median of
// some years.
func fullest(years []capability.Trial, of func(*plant.Month) float64) float64 {
	var most []float64
	for _, year := range years {
		highest := 0.0
		for i := range year.Months {
			highest = max(highest, of(&year.Months[i]))
		}
		most = append(most, highest)
	}
	return stats.Quantile(most, 0.5)
}
