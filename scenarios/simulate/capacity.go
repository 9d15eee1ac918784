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

// capacities is a CapacityYear for every year.
func (t *tally) capacities() {
	t.answer.Capacities = make([]CapacityYear, len(t.answer.Years))
	for y := range t.answer.Capacities {
		out, of := &t.answer.Capacities[y], inYear(y)
		perDay := func(mean, peak *answer.Spread, f field) {
			t.ratio(mean, of, f, daysIn)
			t.most(peak, of, func(m *plant.Month) float64 { return perUnit(f(m), m.Days) })
		}
		out.Label = t.answer.YearName(t.plant.Start.AddYears(y))
		perDay(&out.Arrived, &out.ArrivedPeak, func(m *plant.Month) float64 { return m.Feed.Dry })
		perDay(&out.Carried, &out.CarriedPeak, func(m *plant.Month) float64 { return m.Mixing.CakeDry })
		t.stages(y)
	}
}

// stages is what each stage sustains on the last day of a year. What cake needs of a stage
// is what it took in that year, all replications together.
func (t *tally) stages(y int) {
	out, of := &t.answer.Capacities[y], inYear(y)
	var all plant.Month
	t.Each(func(r *Replication) {
		for i := range of(r.Usual) {
			addNeeds(&all, &of(r.Usual)[i])
		}
	})
	t.Last(func() {
		lastDay := t.plant.Start.AddYears(y + 1).AddDays(-1)
		arrived := out.Arrived.P50
		for _, c := range t.plant.Capacities(lastDay, plant.NeedsOf([]plant.Month{all})) {
			out.Stages = append(out.Stages, Stage{Name: c.Stage.String(), Sustains: c.CakeDry, Headroom: perUnit(c.CakeDry-arrived, arrived)})
		}
		slices.SortStableFunc(out.Stages, func(a, b Stage) int { return cmp.Compare(a.Sustains, b.Sustains) })
	})
}

// addNeeds adds up what [plant.NeedsOf] reads of months.
func addNeeds(all, m *plant.Month) {
	all.Mixing.CakeDry += m.Mixing.CakeDry
	all.Mixing.Wet += m.Mixing.Wet
	all.Mixing.Volume += m.Mixing.Volume
	all.Curing.Room += m.Curing.Room
	all.Curing.CakeDry += m.Curing.CakeDry
	all.Screen.Work += m.Screen.Work
	all.Screen.CakeDry += m.Screen.CakeDry
	all.Product.Volume += m.Product.Volume
	all.Product.CakeDry += m.Product.CakeDry
	all.Chips.FreshUsed += m.Chips.FreshUsed
	all.Drying.Room += m.Drying.Room
	all.Drying.Days += m.Drying.Days
	all.Release.Loads += m.Release.Loads
}

// overAir reports whether vessels ask in a year for more air than there is, in
// more than a few replications.
func (y *Year) overAir() bool { return y.Air != nil && y.Air.HoursOver.P90 > 0 }
