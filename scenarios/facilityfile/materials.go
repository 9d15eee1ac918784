package facilityfile

import (
	"loamcast/facility/material"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// materials reads the composition of cake and chips, and how chips are bought.
func (r *reader) materials() {
	cake := r.group("cake")
	r.m.Cake = material.Spec{Name: "cake", Moisture: 1 - mean(r.m.Feed.CakeSolids[:]), BulkDensity: cakeDensity}
	composition(cake, cakeRows, &r.m.Cake)
	if r.solidsKnown {
		r.check(cake, r.m.Cake)
	}

	c := r.group("chips")
	chips := &r.m.Chips
	chips.Fresh.Name = "chips"
	composition(c, chipsSpecRows, &chips.Fresh)
	read(c, chipsRows, chips)
	if c.Has("sources") {
		r.chipSources(c)
	} else {
		read(c, deliveredRows, chips)
		read(c, supplyRows, chips)
		chips.Fresh.Moisture = mean(chips.Moisture[:])
		r.check(c, chips.Fresh)
	}
	if c.Good("order_up_to", "store") && chips.OrderUpTo > chips.Capacity {
		c.Error("order_up_to", "more than the store holds", "write at most "+units.Format(chips.Capacity, units.Volume, r.units))
	}
	if !c.Has("sources") && c.Good("order_up_to", "reorder_at", "truckload") && chips.OrderUpTo-chips.Reorder < chips.Truckload {
		c.Error("order_up_to", "a truckload does not fit between reorder_at and order_up_to", "raise order_up_to or lower reorder_at")
	}
	r.bulk()
}

// cakeDensity, kg/m3, is what a material that is all fine is delivered at; its
// volume in a mix follows from the volume model and not from this.
const cakeDensity = 1000

// composition reads what the dry solids of a material are made of.
func composition(m *yamlfile.Map, rows []row[material.Spec], s *material.Spec) {
	read(m, rows, s)
	switch {
	case !m.Good("rapidly_degradable", "readily_degradable", "slowly_degradable"):
	case s.Readily+s.Slowly > 1:
		m.Error("slowly_degradable", "readily and slowly degradable parts add to more than the volatile solids", "keep their sum at or below 100 %")
	case s.Rapidly+s.Readily+s.Slowly > 1:
		m.Error("rapidly_degradable", "rapidly, readily and slowly degradable parts add to more than the volatile solids", "keep their sum at or below 100 %, and take from readily_degradable what is counted here")
	}
}

// check places what the material itself refuses where it can be mended: at its
// nitrogen, or at its carbon, whichever the oxidation formulas find too low.
func (r *reader) check(m *yamlfile.Map, s material.Spec) {
	if !m.Present() || !m.Good("volatile_solids", "rapidly_degradable", "readily_degradable", "slowly_degradable", "nitrogen", "carbon", "moisture", "bulk_density", "fines", "solids") {
		return
	}
	err := s.Validate(r.m.Chemistry)
	if err == nil {
		return
	}
	key := "carbon"
	s.Carbon = 1
	if s.Validate(r.m.Chemistry) != nil {
		key = "nitrogen"
	}
	r.doc.ErrorAt(m.Pos(key), err.Error(), "")
}

// bulk sets the volume model so that fresh chips fill what the supplier says.
func (r *reader) bulk() {
	fresh := r.m.Chips.Fresh
	if d := fresh.DryBulkDensity() * fresh.Coarse; d > 0 {
		r.m.Bulk.CoarseDry = d
		r.m.Active.Bulk.CoarseDry = d
		r.m.Pile.Bulk.CoarseDry = d
	}
}
