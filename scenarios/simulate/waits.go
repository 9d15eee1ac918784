package simulate

import (
	"fmt"

	"loamcast/facility/plant"
)

// Wait is how long solids waited for one cause: means over the replications,
// kg dry of cake × days.
type Wait struct {
	Cause  string
	Years  []float64 // in order of Answer.Years
	Months []float64 // in order of Answer.Months
}

// waits reduces the bottleneck account: one Wait for each cause, in the
// plant's order.
func (r Runs) waits() []Wait {
	n := float64(len(r.Records))
	out := make([]Wait, len(plant.CauseNames))
	for c := range out {
		w := &out[c]
		w.Cause = fmt.Sprint(plant.Cause(c))
		w.Months = make([]float64, len(r.Records[0].Months))
		w.Years = make([]float64, len(r.Records[0].Years))
		for _, rec := range r.Records {
			for i := range rec.Months {
				w.Months[i] += rec.Months[i].Waits[c] / n
				w.Years[i/monthsPerYear] += rec.Months[i].Waits[c] / n
			}
		}
	}
	return out
}

// Shares returns what part of the waiting of year y each of waits stands for,
// 0…1, in order.
func Shares(waits []Wait, y int) []float64 {
	total := 0.0
	for _, w := range waits {
		total += w.Years[y]
	}
	out := make([]float64, len(waits))
	for i, w := range waits {
		out[i] = perUnit(w.Years[y], total)
	}
	return out
}
