package plant

import (
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/sim/calendar"
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

// AmendmentNeed is what arithmetic says of an amendment, before any run: m3.
type AmendmentNeed struct {
	Batch float64 // the most that a batch of a full load takes
	Year  float64 // what the mean production of the first year asks for
	Own   float64 // what own sources bring in a year
}

// AmendmentNeeds returns the needs of the model's amendments, in its order, for cake
// at its mean solids content. Feedstocks count as so much more cake.
func (m *Model) AmendmentNeeds() []AmendmentNeed {
	dry := m.Feed.Base
	for i := range m.Feedstocks {
		dry += mean(m.Feedstocks[i].PerDay[:])
	}
	p := Plant{Model: *m}
	load, cakeDry := p.typicalLoad()
	batches := m.Mixer.Batches(load.Total(), m.Bulk.Volume(load))
	cake := cakeDry / m.cakePerVolume()
	out := make([]AmendmentNeed, len(m.Amendments))
	for i := range m.Amendments {
		a, need := &m.Amendments[i], &out[i]
		for month := range a.PerCake {
			days := float64(calendar.DaysIn(2001, time.Month(month+1)))
			need.Batch = max(need.Batch, a.PerCake[month]*cake/batches)
			need.Year += a.PerCake[month] * days * dry * m.Feed.Month[month] / mean(m.Feed.Month[:]) / m.cakePerVolume()
			need.Own += a.Own[month] * days
		}
	}
	return out
}
