package simulate

import (
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
)

// Resource is how one kind of machine or crew spent its time. Kinds of which
// there are always enough are left out.
type Resource struct {
	Name  string
	Years []ResourceYear // in order of Answer.Years
}

// ResourceYear is a year of a resource, all units together.
type ResourceYear struct {
	Scheduled answer.Spread // unit-hours, by its working hours
	Busy      answer.Spread // unit-hours at work within them
	Overtime  answer.Spread // unit-hours at work outside of them, to finish what was begun
	Down      answer.Spread // unit-hours out of order, at any hour
	Use       answer.Spread // Busy ÷ Scheduled
	PeakUse   answer.Spread // the same in the month of the year in which it is highest
}

// resources is the use of every resource that is limited, in the plant's order.
func (t *tally) resources() {
	all := make([]Resource, len(plant.ResourceNames))
	for i, name := range plant.ResourceNames {
		all[i] = Resource{Name: name, Years: make([]ResourceYear, len(t.answer.Years))}
		for y := range all[i].Years {
			t.resource(&all[i].Years[y], i, inYear(y))
		}
	}
	t.Last(func() {
		t.answer.Resources = slices.DeleteFunc(all, func(r Resource) bool { return !(r.Years[0].Scheduled.Mean > 0) })
	})
}

func (t *tally) resource(out *ResourceYear, i int, of span) {
	scheduled := func(m *plant.Month) float64 { return m.Use[i].Scheduled }
	busy := func(m *plant.Month) float64 { return m.Use[i].Busy }
	t.sum(&out.Scheduled, of, scheduled)
	t.sum(&out.Busy, of, busy)
	t.sum(&out.Overtime, of, func(m *plant.Month) float64 { return m.Use[i].Overtime })
	t.sum(&out.Down, of, func(m *plant.Month) float64 { return m.Use[i].Down })
	t.ratio(&out.Use, of, busy, scheduled)
	t.most(&out.PeakUse, of, func(m *plant.Month) float64 { return perUnit(busy(m), scheduled(m)) })
}
