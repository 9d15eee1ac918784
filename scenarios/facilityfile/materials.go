package facilityfile

import (
	"loamcast/facility/material"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

const farmHandbook = "NRAES-54 App. A, third party's copy"

// materials reads the composition of cake and chips, and how chips are bought.
func (r *reader) materials() {
	cake := r.group("cake")
	r.m.Cake = composition("cake", cake, yamlfile.Usually(0.015, 0.09, "digested biosolids about 1.9 %, from memory; raw and waste activated solids more"))
	r.m.Cake.Moisture = 1 - mean(r.m.Feed.CakeSolids[:])
	r.m.Cake.BulkDensity = cakeDensity
	if r.solidsKnown {
		r.check(cake, r.m.Cake)
	}

	c := r.group("chips")
	chips := &r.m.Chips
	chips.Fresh = composition("chips", c, yamlfile.Usually(0.0004, 0.0023, "wood chips 0.04 to 0.23 % nitrogen, "+farmHandbook))
	chips.Moisture = c.Monthly("moisture", units.Fraction, yamlfile.Between(0, 0.7),
		yamlfile.Usually(0.15, 0.50, "wood chips 15 to 40 %, "+farmHandbook+"; wetter in winter"))
	chips.Fresh.Moisture = mean(chips.Moisture[:])
	chips.Fresh.Coarse = 1 - c.QuantityOr("fines", units.Fraction, 0.04, yamlfile.Between(0, 0.9))
	chips.Fresh.BulkDensity = c.Quantity("bulk_density", units.MassPerVolume, yamlfile.Between(80, 800),
		yamlfile.Usually(180, 400, "wood chips 264 to 368 kg/m3, "+farmHandbook))
	r.check(c, chips.Fresh)

	chips.Capacity = c.Quantity("store", units.Volume, yamlfile.Positive())
	chips.Reorder = c.Quantity("reorder_at", units.Volume, yamlfile.NonNegative())
	chips.OrderUpTo = c.Quantity("order_up_to", units.Volume, yamlfile.Positive())
	chips.Truckload = c.Quantity("truckload", units.Volume, yamlfile.Positive())
	chips.LeadTime = duration(c.Quantity("lead_time", units.Duration, yamlfile.Between(0, secondsPerYear)))
	chips.LeadCV = c.QuantityOr("lead_time_variation", units.Fraction, 0, yamlfile.Between(0, 2))
	if c.Good("order_up_to", "store") && chips.OrderUpTo > chips.Capacity {
		c.Error("order_up_to", "more than the store holds", "write at most "+units.Format(chips.Capacity, units.Volume, r.units))
	}
	if c.Good("order_up_to", "reorder_at", "truckload") && chips.OrderUpTo-chips.Reorder < chips.Truckload {
		c.Error("order_up_to", "a truckload does not fit between reorder_at and order_up_to", "raise order_up_to or lower reorder_at")
	}
	r.bulk()
}

// cakeDensity, kg/m3, is what a material that is all fine is delivered at; its
// volume in a mix follows from the volume model and not from this.
const cakeDensity = 1000

// composition reads what the dry solids of a material are made of.
func composition(name string, m *yamlfile.Map, nitrogen ...yamlfile.Check) material.Spec {
	s := material.Spec{Name: name}
	s.Volatile = m.Quantity("volatile_solids", units.Fraction, yamlfile.Between(0.05, 1))
	s.Readily = m.QuantityOr("readily_degradable", units.Fraction, 0, yamlfile.Between(0, 1))
	s.Slowly = m.QuantityOr("slowly_degradable", units.Fraction, 0, yamlfile.Between(0, 1))
	s.Nitrogen = m.Quantity("nitrogen", units.Fraction, append([]yamlfile.Check{yamlfile.Between(0, 0.2)}, nitrogen...)...)
	s.Carbon = m.QuantityOr("carbon", units.Fraction, 0, yamlfile.Between(0, 0.7))
	if m.Good("readily_degradable", "slowly_degradable") && s.Readily+s.Slowly > 1 {
		m.Error("slowly_degradable", "readily and slowly degradable parts add to more than the volatile solids", "keep their sum at or below 100 %")
	}
	return s
}

// check places what the material itself refuses where it can be mended: at its
// nitrogen, or at its carbon, whichever the oxidation formulas find too low.
func (r *reader) check(m *yamlfile.Map, s material.Spec) {
	if !m.Present() || !m.Good("volatile_solids", "readily_degradable", "slowly_degradable", "nitrogen", "carbon", "moisture", "bulk_density", "fines", "solids") {
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
