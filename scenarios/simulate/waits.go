package simulate

import (
	"cmp"
	"fmt"
	"slices"

	"loamcast/facility/plant"
	"loamcast/sim/calendar"
)

// Wait is how long solids waited for one cause: means over the replications,
// kg dry of cake × days.
type Wait struct {
	Cause  string
	Years  []float64 // in order of Answer.Years
	Months []float64 // in order of Answer.Months
}

// waits reduces the bottleneck account: one Wait for each cause, in the
// plant's order. Amendments are none where the recipe has none.
func (r Runs) waits() []Wait {
	n := float64(len(r.Records))
	var out []Wait
	for c := range plant.CauseNames {
		if plant.Cause(c) == plant.NoAmendment && r.Records[0].Months[0].Amendments == nil {
			continue
		}
		out = append(out, Wait{})
		w := &out[len(out)-1]
		w.Cause = fmt.Sprint(plant.Cause(c))
		w.Months = make([]float64, len(r.Records[0].Months))
		w.Years = make([]float64, len(r.Records[0].Years))
		for _, rec := range r.Records {
			for i := range rec.Months {
				w.Months[i] += rec.Months[i].Waits[c] / n
				w.Years[i/calendar.MonthsPerYear] += rec.Months[i].Waits[c] / n
			}
		}
	}
	return out
}

// leastWait is the share of the waiting below which a cause is not worth a word.
const leastWait = 0.005

// LongestWaits returns what part of the waiting of a year each cause stands for,
// the longest first and those of half a percent or more.
func (a *Answer) LongestWaits(year int) []Cause {
	total := 0.0
	for _, w := range a.Waits {
		total += w.Years[year]
	}
	var out []Cause
	for _, w := range a.Waits {
		if share := perUnit(w.Years[year], total); share >= leastWait {
			out = append(out, Cause{w.Cause, share})
		}
	}
	slices.SortStableFunc(out, func(a, b Cause) int { return cmp.Compare(b.Share, a.Share) })
	return out
}
