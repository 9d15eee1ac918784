package capability

import (
	"math"
	"slices"

	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

const (
	// Quarters of a year of the horizon, and the months of each.
	Quarters         = 4
	MonthsPerQuarter = calendar.MonthsPerYear / Quarters

	// Sureness is the confidence of the ranges beside shares of runs and dates.
	Sureness = 0.9
	// Rounding is what sums of shares may be off by.
	Rounding = 1e-9
)

// QuartersBefore returns how many quarters of a horizon have begun before a day.
func QuartersBefore(start calendar.Date, years int, day calendar.Date) int {
	n := 0
	for n < years*Quarters && start.AddMonths(n*MonthsPerQuarter).Before(day) {
		n++
	}
	return n
}

// QuartersUntil returns how many quarters of a horizon, with parts of one, are over on
// a day.
func QuartersUntil(start calendar.Date, years int, day calendar.Date) float64 {
	n := QuartersBefore(start, years, day)
	end := start.AddMonths(n * MonthsPerQuarter)
	if n == 0 || !day.Before(end) {
		return float64(n)
	}
	begin := end.AddMonths(-MonthsPerQuarter)
	return float64(n-1) + float64(begin.DaysUntil(day))/float64(begin.DaysUntil(end))
}

// Odds are the shares of runs that have begun to miss the service target by the
// end of each quarter of each year, where they miss that year's.
type Odds [][Quarters]Sample

// Sample is an estimate, first, and values as likely for all that is known.
type Sample []float64

// Interval returns the estimate with the range of the others.
func (s Sample) Interval() stats.Interval {
	sorted := slices.Sorted(slices.Values(s[1:]))
	i := stats.Interval{Estimate: s[0], Low: s[0], High: s[0], Level: Sureness}
	if len(sorted) > 0 {
		i.Low = min(s[0], stats.SortedQuantile(sorted, (1-Sureness)/2))
		i.High = max(s[0], stats.SortedQuantile(sorted, (1+Sureness)/2))
	}
	return i
}

// Constant returns odds of so many years that are all one share, with a number of
// values as likely.
func Constant(share float64, years, likely int) Odds {
	out := make(Odds, years)
	for year := range out {
		for q := range Quarters {
			out[year][q] = slices.Repeat([]float64{share}, likely+1)
		}
	}
	return out
}

// Mixed returns the odds over growth scenarios by their weights.
func Mixed(of []Odds, weights []float64) Odds {
	out := Constant(0, len(of[0]), len(of[0][0][0])-1)
	for year := range out {
		for q := range Quarters {
			for g, o := range of {
				for i, share := range o[year][q] {
					out[year][q][i] += weights[g] * share
				}
			}
		}
	}
	return out
}

// Then returns the odds of a plant that becomes another after so many quarters of the
// horizon, and parts of one. A year that is begun to be missed before stays missed;
// within a quarter years begin to be missed evenly.
func (o Odds) Then(next Odds, after float64) Odds {
	out := make(Odds, len(o))
	for year := range o {
		begun := after - float64(year*Quarters)
		switch {
		case begun >= Quarters:
			out[year] = o[year]
			continue
		case begun <= 0:
			out[year] = next[year]
			continue
		}
		whole := int(begun)
		before := o.within(year, whole, begun-float64(whole))
		for q := range Quarters {
			if q < whole {
				out[year][q] = o[year][q]
			} else {
				out[year][q] = greater(before, next[year][q])
			}
		}
	}
	return out
}

// within returns the odds at a part of a quarter of a year.
func (o Odds) within(year, quarter int, part float64) Sample {
	out := make(Sample, len(o[year][quarter]))
	for i, end := range o[year][quarter] {
		begin := 0.0
		if quarter > 0 {
			begin = o[year][quarter-1][i]
		}
		out[i] = begin + part*(end-begin)
	}
	return out
}

// greater returns the greater of each two values.
func greater(a, b Sample) Sample {
	out := make(Sample, len(a))
	for i := range a {
		out[i] = max(a[i], b[i])
	}
	return out
}

// Share returns the share of runs that miss a year.
func (o Odds) Share(year int) Sample { return o[year][Quarters-1] }

// Late returns the chance of being late before each quarter of the horizon, and
// before its end: the share of runs that miss in the worst of the years that begin to
// be missed before then.
func (o Odds) Late() []stats.Interval {
	worst := make(Sample, len(o[0][0]))
	out := []stats.Interval{worst.Interval()}
	for year := range o {
		for _, s := range o[year] {
			worst = greater(worst, s)
			out = append(out, worst.Interval())
		}
	}
	return out
}

// ShortIn returns the quarter of the horizon, from 0, by whose end the chance of
// being late, or an end of its range, has passed a limit; the number of quarters for
// never.
func ShortIn(late []stats.Interval, limit float64, of func(stats.Interval) float64) int {
	for quarter, chance := range late[1:] {
		if of(chance) > limit+Rounding {
			return quarter
		}
	}
	return len(late) - 1
}

// Estimate returns the estimate of a chance.
func Estimate(i stats.Interval) float64 { return i.Estimate }

// LowEnd returns the low end of its range.
func LowEnd(i stats.Interval) float64 { return i.Low }

// HighEnd returns the high end of its range.
func HighEnd(i stats.Interval) float64 { return i.High }

// Verdict says on which side of a limit the share of a year lies, with a chance of
// error.
func (o Odds) Verdict(year int, limit, wrong float64) stats.Verdict {
	above := 0.0
	values := o.Share(year)[1:]
	for _, share := range values {
		if share > limit+Rounding {
			above++
		}
	}
	switch above /= math.Max(1, float64(len(values))); {
	case len(values) == 0 && o.Share(year)[0] > limit+Rounding, above >= 1-wrong:
		return stats.Above
	case above <= wrong:
		return stats.Below
	}
	return stats.Undecided
}
