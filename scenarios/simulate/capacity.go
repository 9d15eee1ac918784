package simulate

import (
	"cmp"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
)

// CapacityYear sets what each stage could sustain at the end of a year beside
// what the year brought: kg dry of cake and feedstocks per day.
type CapacityYear struct {
	Label                string
	Arrived, ArrivedPeak answer.Spread // mean of the year, and of its highest month
	Carried, CarriedPeak answer.Spread // the same of what was mixed
	Stages               []Stage       // those that limit anything, the tightest first
}

// Stage is what one stage could sustain alone, by arithmetic: see
// [plant.Plant.Capacities].
type Stage struct {
	Name     string
	Sustains float64 // kg dry per day
	Headroom float64 // by what share of the median of Arrived that passes it; negative if it does not
}

// capacities returns a CapacityYear for every year. What cake needs of a stage
// is what it took in that year, all replications together.
func (r Runs) capacities() []CapacityYear {
	out := make([]CapacityYear, len(r.Records[0].Years))
	for y := range out {
		of := inYear(y)
		perDay := func(f field) (mean, peak answer.Spread) {
			return spread(r.Records, func(rec *plant.Record) float64 { return perUnit(plant.Sum(of(rec), f), plant.Sum(of(rec), daysIn)) }),
				r.most(of, func(m *plant.Month) float64 { return perUnit(f(m), m.Days) })
		}
		c := &out[y]
		c.Label = r.YearName(r.Records[0].Years[y].From)
		c.Arrived, c.ArrivedPeak = perDay(func(m *plant.Month) float64 { return m.Feed.Dry })
		c.Carried, c.CarriedPeak = perDay(func(m *plant.Month) float64 { return m.Mixing.CakeDry })
		c.Stages = r.stages(y, c.Arrived.P50)
	}
	return out
}

// stages returns what each stage sustains on the last day of a year.
func (r Runs) stages(y int, arrived float64) []Stage {
	var all []plant.Month
	for _, rec := range r.Records {
		all = append(all, inYear(y)(rec)...)
	}
	lastDay := r.Records[0].Years[y].From.AddYears(1).AddDays(-1)
	var out []Stage
	for _, c := range r.Plant.Capacities(lastDay, plant.NeedsOf(all)) {
		out = append(out, Stage{Name: c.Stage.String(), Sustains: c.CakeDry, Headroom: perUnit(c.CakeDry-arrived, arrived)})
	}
	slices.SortStableFunc(out, func(a, b Stage) int { return cmp.Compare(a.Sustains, b.Sustains) })
	return out
}

// overAir reports whether vessels ask in a year for more air than there is, in
// more than a few replications.
func (y *Year) overAir() bool { return y.Air != nil && y.Air.HoursOver.P90 > 0 }
