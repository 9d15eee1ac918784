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

// short returns the quarter of the horizon, from 0, by whose end more runs than a
// limit have first begun to miss a year, four times the years for none; in one of
// the values that are as likely.
func (o odds) short(limit float64, value int) int {
	for year := range o {
		for q, s := range o[year] {
			if s[value] > limit+rounding {
				return year*quarters + q
			}
		}
	}
	return len(o) * quarters
}

// rounding of sums of shares.
const rounding = 1e-9

// late returns the share of runs that miss in the worst of the years that begin to
// be missed before a quarter of the horizon.
func (o odds) late(quarter int) sample {
	out := make(sample, len(o[0][0]))
	for year := range o {
		for q, s := range o[year] {
			if year*quarters+q < quarter {
				for i, share := range s {
					out[i] = max(out[i], share)
				}
			}
		}
	}
	return out
}

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
	values := len(o[0][0])
	r.Short = o.short(limit, 0)
	var all []float64
	for i := 1; i < values; i++ {
		all = append(all, float64(o.short(limit, i)))
	}
	slices.Sort(all)
	r.ShortFrom, r.ShortTo = r.Short, r.Short
	if len(all) > 0 {
		r.ShortFrom = min(r.Short, int(math.Floor(stats.SortedQuantile(all, (1-sureness)/2))))
		r.ShortTo = max(r.Short, int(math.Ceil(stats.SortedQuantile(all, (1+sureness)/2))))
	}
}
