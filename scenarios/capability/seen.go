package capability

import (
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
)

// Seen is what is kept of a year that was simulated, whose months are let go.
type Seen struct {
	Missed bool // the service target
	Begun  int  // the quarter in which it began to be missed, from 0, if it was

	share, delay float64 // of the solids that left untreated, 0…1; days that cake waited for what was short

	*Sums // nil of a year that is one of very many, see [Described]
}

// Described is of how many replications the sums of years are kept, which say what is
// short and what stages need. Of any more it is known how near they came to the target,
// from which follows what is carried.
const Described = answer.ExactRuns

// Sums are what a year adds up to, some half a kilobyte in place of the 18 of its months.
// Those of several years are the sums of all their months, but for the order in which they
// are added up.
type Sums struct {
	Untreated [Quarters]float64 // kg dry that left so in each quarter
	// InUse is the part of the vessels in use in the month in which it was highest, 0…1,
	// Held the most cake held at once, kg dry, and Full the most of the holding that it
	// filled, 0…1.
	InUse, Held, Full float64

	failed                           float64 // kg dry of cake in loads that did not meet all criteria
	days, fed, cake                  float64 // of the year; kg dry that came in, and the cake of it
	mixed, mixedWet, mixedVolume     float64 // cake mixed, kg dry; the mix, kg and m3
	filled, left, residence          float64 // loads into vessels and out of them; their days
	room, cured, dryingRoom, dryDays float64 // see [plant.MonthlyCuring] and [plant.MonthlyDrying]
	screened, screenedCake           float64 // see [plant.MonthlyScreen]
	product, productCake, chips      float64 // m3; the cake in it, kg dry; m3 of fresh chips used
	short, enough                    wait    // in months in which solids left or waited too long, and in the others
	contractDry, contractWet         float64
	contracts                        []plant.MonthlyContract // of the months in turn; nil if nothing was hauled
}

// SeenOf takes what is kept of the months of a year, which is held against a target.
func SeenOf(months []plant.Month, t facilityfile.Target) Seen {
	s := Seen{Missed: t.Missed(months), share: plant.UntreatedShare(months), delay: plant.CakeDelay(months), Sums: sumsOf(months, t)}
	if s.Missed {
		s.Begun = Begun(months, t)
	}
	return s
}

func sumsOf(months []plant.Month, t facilityfile.Target) *Sums {
	s := &Sums{}
	for i := range months {
		m := &months[i]
		s.Untreated[i/MonthsPerQuarter] += m.Untreated()
		if m.Vessels.Installed > 0 {
			s.InUse = max(s.InUse, m.Vessels.Mean/m.Vessels.Installed)
		}
		s.Held, s.Full = max(s.Held, m.Holding.Peak), max(s.Full, m.Holding.Fullest)
		if m.Untreated() > 0 || plant.CakeDelay(months[i:i+1]) > t.DelayLimit {
			s.short.add(m)
		} else {
			s.enough.add(m)
		}
		s.days += m.Days
		s.cake += m.Feed.CakeDry()
		s.fed += m.Feed.Dry
		s.failed += m.Release.FailedCakeDry
		s.mixed, s.mixedWet, s.mixedVolume = s.mixed+m.Mixing.CakeDry, s.mixedWet+m.Mixing.Wet, s.mixedVolume+m.Mixing.Volume
		s.filled, s.left, s.residence = s.filled+m.Loads.Filled, s.left+m.Release.Loads, s.residence+m.Release.Residence
		s.room, s.cured = s.room+m.Curing.Room, s.cured+m.Curing.CakeDry
		s.dryingRoom, s.dryDays = s.dryingRoom+m.Drying.Room, s.dryDays+m.Drying.Days
		s.screened, s.screenedCake = s.screened+m.Screen.Work, s.screenedCake+m.Screen.CakeDry
		s.product, s.productCake = s.product+m.Product.Volume, s.productCake+m.Product.CakeDry
		s.chips += m.Chips.FreshUsed
		s.contractDry, s.contractWet = s.contractDry+m.Holding.ContractDry, s.contractWet+m.Holding.ContractWet
		s.contracts = append(s.contracts, m.Holding.Contracts...)
	}
	s.contracts = slices.Clip(s.contracts)
	return s
}

// Sum returns the year as one month that has what arithmetic on capacities and loads,
// and on what is hauled by contract, reads of months: [plant.NeedsOf] and the like.
func (s *Sums) Sum() plant.Month {
	var m plant.Month
	m.Days = s.days
	m.Feed.Dry = s.fed
	m.Mixing.CakeDry, m.Mixing.Wet, m.Mixing.Volume = s.mixed, s.mixedWet, s.mixedVolume
	m.Loads.Filled, m.Release.Loads, m.Release.Residence = s.filled, s.left, s.residence
	m.Curing.Room, m.Curing.CakeDry = s.room, s.cured
	m.Drying.Room, m.Drying.Days = s.dryingRoom, s.dryDays
	m.Screen.Work, m.Screen.CakeDry = s.screened, s.screenedCake
	m.Product.Volume, m.Product.CakeDry = s.product, s.productCake
	m.Chips.FreshUsed = s.chips
	m.Holding.ContractDry, m.Holding.ContractWet, m.Holding.Contracts = s.contractDry, s.contractWet, s.contracts
	return m
}

// over is how many times as much cake the year brought as some even production.
func (s *Sums) over(load float64) float64 { return s.cake / s.days / load }

// strain is how near the year comes to what the target allows, which is 1, by what leaves
// untreated or by how long cake waits, as far as [mostStrain].
func (s *Seen) strain(t facilityfile.Target) float64 {
	part := func(is, limit float64) float64 {
		switch {
		case is <= 0:
			return 0
		case limit <= 0:
			return mostStrain
		}
		return min(is/limit, mostStrain)
	}
	return max(part(s.share, t.DivertedLimit), part(s.delay, t.DelayLimit))
}

// SeenIn takes what is kept of each year of a replication of some number.
func SeenIn(months []plant.Month, t facilityfile.Target, replication int) []Seen {
	out := make([]Seen, 0, len(months)/calendar.MonthsPerYear)
	for year := range slices.Chunk(months, calendar.MonthsPerYear) {
		seen := SeenOf(year, t)
		if replication >= Described {
			seen.Sums = nil
		}
		out = append(out, seen)
	}
	return out
}
