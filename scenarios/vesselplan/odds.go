package vesselplan

import (
	"math"
	"slices"

	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

const (
	quarters         = 4 // in a year of the horizon
	monthsPerQuarter = calendar.MonthsPerYear / quarters

	// sureness is the confidence of the ranges beside shares of runs and dates.
	sureness = 0.9
)

// odds are the shares of runs that have begun to miss the service target by the
// end of each quarter of each year, where they miss that year's.
type odds [][quarters]sample

// sample is an estimate, first, and values as likely for all that is known.
type sample []float64

// interval returns the estimate with the range of the others.
func (s sample) interval() stats.Interval {
	sorted := slices.Sorted(slices.Values(s[1:]))
	i := stats.Interval{Estimate: s[0], Low: s[0], High: s[0], Level: sureness}
	if len(sorted) > 0 {
		i.Low = min(s[0], stats.SortedQuantile(sorted, (1-sureness)/2))
		i.High = max(s[0], stats.SortedQuantile(sorted, (1+sureness)/2))
	}
	return i
}

// mixed returns the odds over growth scenarios by their weights.
func mixed(of []odds, weights []float64) odds {
	out := make(odds, len(of[0]))
	for year := range out {
		for q := range quarters {
			out[year][q] = make(sample, len(of[0][year][q]))
			for g, o := range of {
				for i, share := range o[year][q] {
					out[year][q][i] += weights[g] * share
				}
			}
		}
	}
	return out
}

// share returns the share of runs that miss a year.
func (o odds) share(year int) sample { return o[year][quarters-1] }

// late returns the chance of being late before each quarter of the horizon, and
// before its end: the share of runs that miss in the worst of the years that begin to
// be missed before then.
func (o odds) late() []stats.Interval {
	worst := make(sample, len(o[0][0]))
	out := []stats.Interval{worst.interval()}
	for year := range o {
		for _, s := range o[year] {
			for i, share := range s {
				worst[i] = max(worst[i], share)
			}
			out = append(out, worst.interval())
		}
	}
	return out
}

// rounding of sums of shares.
const rounding = 1e-9

// shortIn returns the quarter of the horizon, from 0, by whose end the chance of
// being late, or an end of its range, has passed a limit; the number of quarters for
// never.
func shortIn(late []stats.Interval, limit float64, of func(stats.Interval) float64) int {
	for quarter, chance := range late[1:] {
		if of(chance) > limit+rounding {
			return quarter
		}
	}
	return len(late) - 1
}

// The estimate of a chance and the ends of its range.
func estimate(i stats.Interval) float64 { return i.Estimate }
func lowEnd(i stats.Interval) float64   { return i.Low }
func highEnd(i stats.Interval) float64  { return i.High }

// verdict says on which side of a limit the share of a year lies, with a chance of
// error.
func (o odds) verdict(year int, limit, wrong float64) stats.Verdict {
	above := 0.0
	values := o.share(year)[1:]
	for _, share := range values {
		if share > limit+rounding {
			above++
		}
	}
	switch above /= math.Max(1, float64(len(values))); {
	case len(values) == 0 && o.share(year)[0] > limit+rounding, above >= 1-wrong:
		return stats.Above
	case above <= wrong:
		return stats.Below
	}
	return stats.Undecided
}

// row sets what a row says of the years.
func (o odds) row(r *Row, limit, wrong float64) {
	r.LastKept, r.FirstMissed = -1, len(o)
	keeping := true
	for year := range o {
		r.Shares = append(r.Shares, o.share(year).interval())
		switch o.verdict(year, limit, wrong) {
		case stats.Above:
			r.FirstMissed = min(r.FirstMissed, year)
			keeping = false
		case stats.Undecided:
			keeping = false
		case stats.Below:
			if keeping {
				r.LastKept = year
			}
		}
	}
	late := o.late()
	r.Short, r.ShortTo = shortIn(late, limit, highEnd), shortIn(late, limit, lowEnd)
}
