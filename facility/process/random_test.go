package process

import (
	"math/rand/v2"
	"time"

	"loamcast/facility/material"
)

// randomLoad draws a mix over what varies between the loads of a plant: solids
// and degradable share of the cake, moisture and wear of the chips, their ratio
// and the size of the load.
func randomLoad(r *rand.Rand) material.Parcel {
	between := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	cake, chips := cakeSpec(), chipSpec()
	cake.Moisture = 1 - between(0.15, 0.28)
	cake.Readily = between(0.40, 0.52)
	chips.Slowly = between(0.40, 0.55)
	chips.Coarse = between(0.75, 0.95)
	chips = chips.WithMoisture(between(0.30, 0.50))
	return mix(cake, chips, between(2.2, 3.2), between(13000, 18144))
}

// plantLoad draws a load as one plant would make it in a month: narrower than
// randomLoad.
func plantLoad(r *rand.Rand, month time.Month) material.Parcel {
	about := func(mean, sd float64) float64 { return mean + sd*r.NormFloat64() }
	cake, chips := cakeSpec(), chipSpec()
	cake.Moisture = 1 - about(0.20, 0.01)
	cake.Readily = about(0.45, 0.01)
	chips.Slowly = about(0.48, 0.01)
	chips.Coarse = about(0.87, 0.02)
	moisture := 0.36
	if month <= time.March || month >= time.November {
		moisture = 0.42
	}
	chips = chips.WithMoisture(about(moisture, 0.015))
	return mix(cake, chips, about(2.5, 0.1), about(17500, 300))
}
