package capability

import (
	"slices"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/threshold"
)

// Demand is the production that a growth scenario may bring in each year.
type Demand [][]float64 // by year: about equally likely, rising, kg dry per day

const (
	// paths of production are drawn, and their values of each year put together
	// into so many levels.
	paths, levels = 1000, 40
)

// DemandOf draws what the uncertain inputs make of production under a growth
// scenario, in the years of the horizon.
func DemandOf(f *facilityfile.File, growth int) Demand {
	m := f.Model
	m.Feed.Growth = f.Planning.Growths[growth].Growth
	drawn := make([][]float64, m.Years)
	for i := range paths {
		model, _ := f.Planning.Draw(m, random.Key{Seed: f.Seed, Replication: i})
		for year := range drawn {
			drawn[year] = append(drawn[year], model.Feed.Base*meanFactor(model.Feed.Growth, year))
		}
	}
	out := make(Demand, m.Years)
	for year, loads := range drawn {
		slices.Sort(loads)
		if loads[paths-1]-loads[0] < 1e-9*loads[0] { // nothing about it is uncertain
			out[year] = loads[:1]
			continue
		}
		for level := range slices.Chunk(loads, paths/levels) {
			out[year] = append(out[year], stat.Mean(level, nil))
		}
	}
	return out
}

// Mean returns the mean production of a year.
func (d Demand) Mean(year int) float64 { return stat.Mean(d[year], nil) }

// Share returns the share of runs in which a year misses the target.
func (d Demand) Share(c *threshold.Curve, year int) float64 {
	sum := 0.0
	for _, load := range d[year] {
		sum += c.Share(load)
	}
	return sum / float64(len(d[year]))
}

// Paths draws n ways in which the production of each month of the horizon may go
// under a growth scenario, kg dry per day, without season and noise.
func Paths(f *facilityfile.File, growth, n int) [][]float64 {
	m := f.Model
	m.Feed.Growth = f.Planning.Growths[growth].Growth
	out := make([][]float64, n)
	for i := range out {
		model, _ := f.Planning.Draw(m, random.Key{Seed: f.Seed, Replication: i})
		for month := range m.Years * calendar.MonthsPerYear {
			out[i] = append(out[i], model.Feed.Base*model.Feed.Growth.Factor((float64(month)+0.5)/calendar.MonthsPerYear))
		}
	}
	return out
}
