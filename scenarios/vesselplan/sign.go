package vesselplan

import (
	"slices"

	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Sign is what to watch so that the order of vessels need not rest on a forecast.
type Sign struct {
	capability.Sign
	Now float64 // the mean production of the first year, kg dry per day
	// InUse is the part of the vessels in use in the fullest month of a year of the
	// production that is the sign, 0…1.
	InUse float64
}

// sign finds what to watch; nil where the capability is not known or no sign comes
// early enough.
func (p *planner) sign(a *Answer) *Sign {
	if p.found.Capability == nil || !a.Planned().Rows[0].RunsShort(a.Horizon) || !a.Planned().VesselsHelp() {
		return nil
	}
	found := p.found.Sign(p.study.File, a.Lead)
	if found == nil {
		return nil
	}
	return &Sign{Sign: *found, Now: p.demand[0].Mean(0), InUse: p.found.inUse(found.Production)}
}

// inUse is the part of the vessels in use in the fullest month of years whose
// production is near to some, the median.
func (c carried) inUse(load float64) float64 {
	var parts []float64
	months := c.nearest(load)
	for year := range slices.Chunk(months, calendar.MonthsPerYear) {
		most := 0.0
		for i := range year {
			most = max(most, year[i].Vessels.Mean/year[i].Vessels.Installed)
		}
		parts = append(parts, most)
	}
	return stats.Quantile(parts, 0.5)
}
