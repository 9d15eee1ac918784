package sample

import (
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/simulate"
)

// dryness has wet lots in every month, most of them in winter, when they dry slowly.
func dryness() []simulate.Dryness {
	var list []simulate.Dryness
	for month := time.January; month <= time.December; month++ {
		d := simulate.Dryness{Month: month, Lots: 40, TooWet: about(0.06, 0.01), Moisture: about(0.47, 0.01),
			Remedy: plant.Remedy{Air: 30, OK: true, Days: 4, Reached: 0.50}}
		if month <= time.April || month == time.December {
			d.TooWet, d.Moisture, d.Remedy.Days = about(0.61, 0.05), about(0.53, 0.01), 19-3*float64(month%12)
		}
		list = append(list, d)
	}
	return list
}
