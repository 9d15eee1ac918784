package vesselplan

import (
	"math"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// outlook is what the installed vessels face.
type outlook struct {
	all      capability.Odds
	byGrowth []capability.Odds
	// lost is what leaves untreated in the mean of all growths, kg dry in each
	// quarter of the horizon.
	lost []float64
}

// orders lists what waiting for each quarter of the horizon means.
func (a *Answer) orders(o outlook, f *facilityfile.File) []Order {
	var out []Order
	haul := haulage(f)
	all := o.all.Late()
	var byGrowth [][]stats.Interval
	for _, g := range o.byGrowth {
		byGrowth = append(byGrowth, g.Late())
	}
	for quarter := firstQuarter(a.Start); quarter.Before(a.Start.AddYears(a.Horizon)); quarter = quarter.AddMonths(monthsPerQuarter) {
		in := Order{Quarter: quarter, InUse: a.inUse(quarter)}
		before := capability.QuartersBefore(a.Start, a.Horizon, in.InUse)
		in.Late = all[before]
		for _, g := range byGrowth {
			in.ByGrowth = append(in.ByGrowth, g[before].Estimate)
		}
		for _, kg := range o.lost[:min(before, len(o.lost))] {
			in.Untreated += kg
		}
		in.Cost = in.Untreated * haul
		out = append(out, in)
		if before >= a.Horizon*quarters {
			break
		}
	}
	return out
}

// firstQuarter returns the first day of the first whole calendar quarter from a day
// on.
func firstQuarter(day calendar.Date) calendar.Date {
	first := calendar.Date{Year: day.Year, Month: (day.Month-1)/monthsPerQuarter*monthsPerQuarter + 1, Day: 1}
	if first.Before(day) {
		first = first.AddMonths(monthsPerQuarter)
	}
	return first
}

// inUse returns the day on which vessels can be loaded that are ordered by the end
// of a quarter.
func (a *Answer) inUse(quarter calendar.Date) calendar.Date {
	return a.Lead.After(quarter.AddMonths(monthsPerQuarter))
}

// haulage is what hauling away cake costs, USD per kg dry; NaN without prices.
func haulage(f *facilityfile.File) float64 {
	if !f.Planning.Priced {
		return math.NaN()
	}
	solids := f.Model.Feed.CakeSolids
	return f.Planning.Economy.Prices.Tipping.Amount / stat.Mean(solids[:], nil)
}
