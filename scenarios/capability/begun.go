package capability

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
)

// begins is the part of what a year allows, of solids that leave untreated or of
// waiting, from which on they count as the beginning of a missed year.
const begins = 0.1

// Begun returns the quarter in which solids begin to leave untreated, or to wait,
// in a year that misses the target by it.
func Begun(months []plant.Month, t facilityfile.Target) int {
	leave := plant.UntreatedShare(months) > t.DivertedLimit
	wait := plant.CakeDelay(months) > t.DelayLimit
	fed, untreated, delayed := 0.0, 0.0, 0.0
	for i := range months {
		fed += months[i].Feed.Dry
	}
	for i := range months {
		untreated += months[i].Untreated()
		delayed += months[i].Holding.Delayed
		if leave && untreated > begins*t.DivertedLimit*fed || wait && delayed > begins*t.DelayLimit*fed {
			return i / MonthsPerQuarter
		}
	}
	return Quarters - 1
}
