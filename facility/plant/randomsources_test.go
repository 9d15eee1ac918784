package plant

import "loamcast/sim"

// chipSources draws suppliers, of truckloads up to some m3, and wood of the plant's own.
func (d draw) chipSources(m *Model, truckload float64) []ChipSource {
	var all []ChipSource
	for range d.int("suppliers", 1, 3) {
		s := ChipSource{Name: "supplier", Fresh: m.Chips.Fresh, Moisture: repeat12(d.one("moisture of a supplier", 0.3, 0.4)),
			Truckload: d.between("truckload of a supplier", 0.2, 0.99) * truckload, LeadTime: d.time("lead time of a supplier", 0, 30*sim.Day), LeadCV: d.between("lead spread of a supplier", 0, 1)}
		s.Fresh.BulkDensity *= d.one("density of a supplier", 0.9, 1, 1.2)
		if d.yes("a supplier has a most") {
			s.Most = s.Truckload * d.between("truckloads a month", 1, 4)
		}
		all = append(all, s)
	}
	if d.yes("wood of its own") {
		s := ChipSource{Name: "own wood", Fresh: m.Chips.Fresh, Moisture: repeat12(0.4), Own: d.monthlyAmounts("own wood", 8)}
		s.Own[3]++
		s.Fresh.Coarse, s.Fresh.Readily = 0.8, 0.02
		all = append(all, s)
	}
	return all
}

// sources draws plants that send cake.
func (d draw) sources() []Source {
	var all []Source
	for range d.int("sources", 1, 3) {
		all = append(all, Source{
			Name: "one", Base: d.between("source", 50, 1000), Growth: Compound{Rate: d.one("growth of a source", 0, 0.1, -0.05)},
			Month: d.months("month of a source", 0, 1.5), Weekday: d.week("weekday of a source"), CakeSolids: repeat12(d.one("cake solids", 0.17, 0.21, 0.26)),
		})
		all[len(all)-1].Month[0] += 0.1
	}
	return all
}
