package plant

import (
	"math"

	"loamcast/facility/material"
)

// amended adds the mean amendments of the recipe to a mix of 1 m3 of cake and its
// chips. Of product nothing is known before it is made: it counts as so much more of
// the mix.
func (m *Model) amended(mix material.Parcel) material.Parcel {
	if len(m.Amendments) == 0 {
		return mix
	}
	whole, more := mix, 0.0
	for i := range m.Amendments {
		a := &m.Amendments[i]
		if a.Source == FromProduct {
			more += mean(a.PerCake[:])
			continue
		}
		one := a.perVolume()
		whole.AddTimes(&one, mean(a.PerCake[:]))
	}
	whole.AddTimes(&mix, more/m.Bulk.Volume(mix))
	return whole
}

// amendments: what comes of those for which mixing waits, of the one that comes
// short first, over the year.
func (q capacities) amendments() (float64, bool) {
	least := math.Inf(1)
	for i := range q.Amendments {
		a := &q.Amendments[i]
		if a.Without || !a.Used() {
			continue
		}
		perDay := mean(a.Own[:])
		if a.Buying.Buys() {
			bought, limited := a.Buying.mostPerDay()
			if !limited {
				continue
			}
			perDay += bought
		}
		least = min(least, perDay/mean(a.PerCake[:])*q.cakePerVolume())
	}
	return least, !math.IsInf(least, 1)
}

// cakePerVolume returns the dry mass of a m3 of mean cake, kg.
func (m *Model) cakePerVolume() float64 {
	cake := m.Cake.WithMoisture(1 - mean(m.Feed.CakeSolids[:])).OfDry(1)
	return 1 / m.Bulk.Volume(cake)
}
