package capability

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/threshold"
)

// Demand is the production that a growth scenario may bring in each year.
type Demand []Year

// Year is the production that a year may bring, kg dry per day.
type Year struct {
	Mean float64
	// Loads are about equally likely, and rise. Each is even production that is as
	// heavy as that of the year, see [heavy].
	Loads []float64
	logs  []float64 // of the loads
}

// newYear returns a year of which loads are given that rise.
func newYear(mean float64, loads []float64) Year {
	y := Year{Mean: mean, Loads: loads}
	for _, load := range loads {
		y.logs = append(y.logs, math.Log(load))
	}
	return y
}

const (
	// paths of production are drawn, and their values of each year put together
	// into so many levels.
	paths, levels = 1000, 40
)

// DemandOf draws what the uncertain inputs make of production under a growth
// scenario, in the years of the horizon.
func DemandOf(f *facilityfile.File, growth int) Demand {
	limit := f.Planning.Target.DivertedLimit
	drawn := make([][]float64, f.Model.Years)
	out := make(Demand, f.Model.Years)
	for _, path := range Paths(f, growth, paths) {
		for year := range drawn {
			months := path[year*calendar.MonthsPerYear : (year+1)*calendar.MonthsPerYear]
			drawn[year] = append(drawn[year], heavy(months, limit))
			out[year].Mean += stat.Mean(months, nil) / paths
		}
	}
	for year, loads := range drawn {
		slices.Sort(loads)
		if loads[paths-1]-loads[0] < 1e-9*loads[0] { // nothing about it is uncertain
			out[year] = newYear(out[year].Mean, loads[:1])
			continue
		}
		var about []float64
		for level := range slices.Chunk(loads, paths/levels) {
			about = append(about, stat.Mean(level, nil))
		}
		out[year] = newYear(out[year].Mean, about)
	}
	return out
}

// DemandAt is the production of the horizon under a growth scenario with the uncertain
// inputs at quantiles of their distributions, as for [study.Case]: nothing is drawn.
func DemandAt(f *facilityfile.File, growth int, quantiles []float64) Demand {
	m := f.Model
	m.Feed.Growth = f.Planning.Growths[growth].Growth
	model, _ := f.Planning.At(m, quantiles)
	out := make(Demand, f.Model.Years)
	path := production(&model)
	for year := range out {
		months := path[year*calendar.MonthsPerYear : (year+1)*calendar.MonthsPerYear]
		out[year] = newYear(stat.Mean(months, nil), []float64{heavy(months, f.Planning.Target.DivertedLimit)})
	}
	return out
}

// heavy returns the even production that is as heavy on a plant as that of the months
// of a year: the plant that carries it but for the share that may leave untreated
// leaves so much of either. Production that rises by less than twice that share in the
// year is as heavy as its mean; what rises faster, or jumps, is heavier.
//
// With loads L and a share s it is C/(1 − s), where the sum of what of each L is over
// C is s of the sum of all.
func heavy(months []float64, share float64) float64 {
	falling := slices.Sorted(slices.Values(months))
	slices.Reverse(falling)
	may, over := share*floats.Sum(months), 0.0
	for i, load := range falling {
		over += load
		carried := (over - may) / float64(i+1)
		if i+1 == len(falling) || carried >= falling[i+1] {
			return carried / (1 - share)
		}
	}
	return 0
}

// Mean returns the mean production of a year.
func (d Demand) Mean(year int) float64 { return d[year].Mean }

// Share returns the share of runs in which a year misses the target.
func (d Demand) Share(c *threshold.Curve, year int) float64 { return c.MeanShare(d[year].logs) }

// Paths draws n ways in which the production of each month of the horizon may go
// under a growth scenario, kg dry per day, without season and noise.
func Paths(f *facilityfile.File, growth, n int) [][]float64 {
	m := f.Model
	m.Feed.Growth = f.Planning.Growths[growth].Growth
	out := make([][]float64, n)
	for i := range out {
		model, _ := f.Planning.Draw(m, random.Key{Seed: f.Seed, Replication: i})
		out[i] = production(&model)
	}
	return out
}

// production is that of each month of a model's horizon, kg dry per day, without season
// and noise.
func production(m *plant.Model) []float64 {
	out := make([]float64, m.Years*calendar.MonthsPerYear)
	for month := range out {
		out[month] = m.Feed.Base * m.Feed.Growth.Factor((float64(month)+0.5)/calendar.MonthsPerYear)
	}
	return out
}
