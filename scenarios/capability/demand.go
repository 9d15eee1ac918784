package capability

import (
	"math"
	"slices"

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
	// heavy as that of the year, see [scale].
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
	weigh := scaleOf(f)
	drawn := make([][]float64, f.Model.Years)
	out := make(Demand, f.Model.Years)
	for _, path := range Paths(f, growth, paths) {
		for year, load := range weigh.inYears(path) {
			months := path[year*calendar.MonthsPerYear : (year+1)*calendar.MonthsPerYear]
			drawn[year] = append(drawn[year], load)
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
	for year, load := range scaleOf(f).inYears(path) {
		months := path[year*calendar.MonthsPerYear : (year+1)*calendar.MonthsPerYear]
		out[year] = newYear(stat.Mean(months, nil), []float64{load})
	}
	return out
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
