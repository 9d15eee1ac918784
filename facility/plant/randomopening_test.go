package plant

import (
	"slices"

	"loamcast/facility/material"
	"loamcast/sim"
)

// opening draws what is there on the first day: of all or of some, and of ages up to
// what is long overdue. Loads and lots are of one composition, and so share courses.
func (d draw) opening(m *Model) *Opening {
	stock := func(name string, of material.Spec, most float64) material.Parcel {
		return of.OfDry(float64(d.int(name, 0, 3)) / 3 * most)
	}
	chips := m.Chips.Fresh
	perVolume := chips.DryBulkDensity()
	o := &Opening{
		Held:      stock("held at first", m.Cake, m.Holding.Capacity),
		HeldFor:   d.time("oldest held", 0, 20*sim.Day),
		Fresh:     stock("fresh chips at first", chips, m.Chips.Capacity*perVolume),
		Recovered: stock("recovered chips at first", chips, 200*perVolume),
		Product:   stock("product at first", chips, m.Product.Capacity*perVolume/2),
	}
	cake := m.Cake.OfDry(1)
	batch := cake.Plus(chips.OfDry(3.2 * m.Bulk.Volume(cake) * perVolume))
	full := min(m.Vessels.Payload/batch.Total(), m.Vessels.Volume/m.Bulk.VolumeOf(&batch))
	most := m.Vessels.Installed
	if m.Yard.Places > 0 {
		most = min(most, m.Yard.Places)
	}
	for range d.int("vessels at first", 0, most) {
		free := slices.Clone(m.Vessels.Classes)
		class := 0
		for _, b := range o.Vessels {
			if free != nil {
				free[b.Class].Installed--
			}
		}
		if free != nil {
			class = slices.IndexFunc(free, func(c VesselClass) bool { return c.Installed > 0 })
			if last := len(free) - 1; free[last].Installed > 0 && d.yes("of the last class") {
				class = last
			}
		}
		o.Vessels = append(o.Vessels, Begun{
			Class: class, Age: d.time("age of a load", 0, m.Vessels.Maximum+10*sim.Day), Load: batch.Times(full), Cake: cake.Times(full),
			Chips: m.Bulk.Volume(chips.OfDry(full * 3.2 * m.Bulk.Volume(cake) * perVolume)),
		})
	}
	room := m.Curing.Capacity
	for range d.int("lots at first", 0, 8) {
		lot := batch.Times(full * d.one("part of a load left", 1, 0.5))
		if room -= m.Bulk.Volume(lot); room < 0 {
			break
		}
		o.Pad = append(o.Pad, Lying{
			Age: d.time("age of a lot", 0, m.Curing.Longest+30*sim.Day), Lot: lot, CakeLeft: cake.Fine.Times(full / 2), CakeDry: full,
			Chips: 1.1 * m.Bulk.VolumeOf(&lot), Readily: lot.Degradable(), Warmth: d.one("warmth of a lot", 5, 40, 60), StillWait: d.time("still to wait", 0, 10*sim.Day),
		})
	}
	return o
}
