package capability

import (
	"cmp"
	"slices"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// Hauling is some measure of what years haul by contract, such as its cost, by their
// production: from the years that were tried to find what the plant carries, and so about
// that production.
type Hauling struct{ dry, of []lost }

// Hauling returns a measure that goes with what months haul by contract, which adds up
// over them and reads nothing else of them ([Sums.Sum]); nil
// where none of the years tried hauled any, or none was kept.
func (found *Capability) Hauling(of func(*plant.Month) float64) *Hauling {
	h := &Hauling{}
	sum := 0.0
	for _, run := range found.Runs {
		for _, trial := range run {
			if trial.Sums == nil {
				continue
			}
			year := trial.Sum()
			sum += year.Holding.ContractDry
			h.dry = append(h.dry, lost{trial.Load, year.Holding.ContractDry})
			h.of = append(h.of, lost{trial.Load, of(&year)})
		}
	}
	if sum == 0 {
		return nil
	}
	h.dry, h.of = monotone(h.dry), monotone(h.of)
	return h
}

// Of is what is expected of the measure in a year under a production.
func (h *Hauling) Of(d Demand, year int) float64 {
	sum := 0.0
	for _, load := range d[year].Loads {
		sum += h.at(load)
	}
	return sum / float64(len(d[year].Loads))
}

// at is the measure in a year of a production, between those tried in a straight line.
// Above them it stays the same: a contract has its limit. Below, each kilogram that comes
// less is one less to haul, which is the least that can be hauled then.
func (h *Hauling) at(load float64) float64 {
	list := h.of
	i, _ := slices.BinarySearchFunc(list, load, func(l lost, at float64) int { return cmp.Compare(l.at, at) })
	switch {
	case i == len(list):
		return list[i-1].share
	case i > 0:
		a, b := list[i-1], list[i]
		return a.share + (b.share-a.share)*(load-a.at)/(b.at-a.at)
	case h.dry[0].share == 0:
		return 0
	}
	less := (list[0].at - load) * calendar.DaysPerYear
	return list[0].share * max(0, 1-less/h.dry[0].share)
}
