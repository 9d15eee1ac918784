package simulate

import (
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

// resources returns the use of every resource that is limited, in the plant's
// order.
func (r Runs) resources() []Resource {
	var out []Resource
	for i, name := range plant.ResourceNames {
		resource := Resource{Name: name}
		for y := range r.Records[0].Years {
			resource.Years = append(resource.Years, r.resourceYear(i, inYear(y)))
		}
		if len(resource.Years) > 0 && resource.Years[0].Scheduled.Mean > 0 {
			out = append(out, resource)
		}
	}
	return out
}

func (r Runs) resourceYear(i int, of span) ResourceYear {
	scheduled := func(m *plant.Month) float64 { return m.Use[i].Scheduled }
	busy := func(m *plant.Month) float64 { return m.Use[i].Busy }
	return ResourceYear{
		Scheduled: r.sum(of, scheduled),
		Busy:      r.sum(of, busy),
		Overtime:  r.sum(of, func(m *plant.Month) float64 { return m.Use[i].Overtime }),
		Down:      r.sum(of, func(m *plant.Month) float64 { return m.Use[i].Down }),
		Use: spread(r.Records, func(rec *plant.Record) float64 {
			return perUnit(plant.Sum(of(rec), busy), plant.Sum(of(rec), scheduled))
		}),
		PeakUse: r.most(of, func(m *plant.Month) float64 { return perUnit(busy(m), scheduled(m)) }),
	}
}
