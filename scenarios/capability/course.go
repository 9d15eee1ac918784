package capability

import (
	"math"

	"loamcast/sim/calendar"
)

// Odds are those of what is carried under the production of each year.
func (found *Capability) Odds(d Demand) Odds {
	if found.Curve == nil {
		share := 0.0
		if found.Never {
			share = 1
		}
		return Constant(share, len(d), Resamples)
	}
	out := Constant(0, len(d), Resamples)
	for year := range d {
		loads := d[year].Loads
		var begun [Quarters]float64 // of those missed
		missed := 0.0
		for _, load := range loads {
			share := found.Curve.Share(load)
			missed += share
			for q, part := range found.Profile.begunBy(found.at(load)) {
				begun[q] += share * part
			}
		}
		for i, curve := range found.Likely {
			if curve.Share(loads[len(loads)-1]) < negligible { // and so the mean of all
				continue
			}
			share := d.Share(curve, year)
			if share < negligible {
				continue
			}
			for q := range Quarters {
				part := 1.0
				if missed > 0 && q < Quarters-1 {
					part = begun[q] / missed
				}
				out[year][q][i] = share * part
			}
		}
	}
	return out
}

// negligible is a share of years, of which a curve goes on for ever, that is none.
const negligible = 1e-6

// at returns where a production lies, in spreads of the curve from what
// half of the years bear.
func (found *Capability) at(load float64) float64 {
	return (math.Log(load) - found.Curve.Mean) / found.Curve.Spread()
}

// Lost is what is expected to leave untreated in each quarter, kg dry, under the
// production of each year.
func (found *Capability) Lost(d Demand) []float64 {
	out := make([]float64, len(d)*Quarters)
	if found.Curve == nil {
		return out
	}
	for year := range d {
		loads := d[year].Loads
		for _, load := range loads {
			kg := load * calendar.DaysPerYear * found.Profile.lostAt(found.at(load)) / float64(len(loads))
			for q, part := range found.Profile.when {
				out[year*Quarters+q] += kg * part
			}
		}
	}
	return out
}
