package sample

import (
	"fmt"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/simulate"
	"loamcast/sim/calendar"
)

// occupancy has a load in each vessel every three weeks, which waits for two things.
func occupancy() simulate.Occupancy {
	o := simulate.Occupancy{From: calendar.Date{Year: firstYear, Month: time.April, Day: 1}, Until: calendar.Date{Year: firstYear, Month: time.July, Day: 1}, Fullest: 0.64}
	const days, cycle = 91, 21
	number := uint64(0)
	for v := range 3 {
		o.Vessels = append(o.Vessels, fmt.Sprintf("Vessel %d", v+1))
		for begin := float64(v); begin < days; begin += cycle {
			number++
			at := begin
			for _, s := range []struct {
				phase plant.Phase
				waits plant.Cause
				lasts float64
			}{
				{plant.Filling, 0, 0.25}, {plant.FullWaits, plant.OffShift, 0.5}, {plant.OnAir, 0, 17},
				{plant.DueWaits, plant.NoCuringSpace, 0.75}, {plant.TurnedRound, 0, 1.5}, {plant.StandsEmpty, 0, 1},
			} {
				stay := simulate.Stay{Vessel: v, Phase: s.phase, Waits: s.waits, From: at, To: min(at+s.lasts, days)}
				if s.phase < plant.TurnedRound && s.phase != plant.StandsEmpty {
					stay.Load = number
				}
				if at < days {
					o.Stays = append(o.Stays, stay)
				}
				at += s.lasts
			}
		}
	}
	return o
}
