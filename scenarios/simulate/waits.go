package simulate

import (
	"cmp"
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

// waits is the bottleneck account: one Wait for each cause, in the plant's order.
// Amendments are none where the recipe has none.
func (t *tally) waits() {
	a, n := t.answer, float64(t.Runs)
	var causes []plant.Cause // of a.Waits
	for c := range plant.CauseNames {
		cause := plant.Cause(c)
		if cause == plant.NoAmendment && len(t.plant.Amendments) == 0 {
			continue
		}
		causes = append(causes, cause)
		a.Waits = append(a.Waits, Wait{Cause: cause.String(), Years: make([]float64, len(a.Years)), Months: make([]float64, len(a.Months))})
	}
	t.Each(func(r *Replication) {
		for w, cause := range causes {
			for i := range r.Usual.Months {
				part := r.Usual.Months[i].Waits[cause] / n
				a.Waits[w].Months[i] += part
				a.Waits[w].Years[i/calendar.MonthsPerYear] += part
			}
		}
	})
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
