package facilityfile

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// MixDesign is what the file says about the design of a mix. A run does not use
// it: it mixes chips and cake at the fixed ratio of the file.
type MixDesign struct {
	Targets mix.Targets
	// Priced says whether the file has the price of fresh chips; without one a
	// design uses as few of them as it can.
	Priced     bool
	ChipsPrice float64 // of fresh chips, USD/m3 loose
	// Amendments have their cost in USD/kg, and Available is kg for each vessel
	// load.
	Amendments []mix.Material
}

// DefaultMixTargets returns the targets for what the file leaves out.
//
// Moisture of at most 65 % and C:N of 25 to 35 are those for biosolids in
// vessels (environmental engineering handbook, table 7.55.1, read). Bulk density
// of at most 712 kg/m3 is the end of the reasonable range of LSU AgCenter
// 3838-D, after NRAES-54 (read). Free air space of 30 % lies above the 20 % of
// Eftoda & McCartney (read) and is where Haug's factor on the rate comes near 1
// (from memory).
func DefaultMixTargets() mix.Targets {
	return mix.Targets{
		Solids:           mix.Window{Low: 0.35},
		CarbonToNitrogen: mix.Window{Low: 25, High: 35},
		FreeAirSpace:     0.30,
		BulkDensity:      712,
	}
}

// mixDesign reads mix.targets, chips.price and the amendments.
func (r *reader) mixDesign() (d MixDesign) {
	t := r.group("mix").MapIf("targets")
	d.Targets = DefaultMixTargets()
	window(t, "solids", units.Fraction, &d.Targets.Solids, 0, 1)
	window(t, "carbon_to_nitrogen", units.Ratio, &d.Targets.CarbonToNitrogen, 0, 200)
	window(t, "chips_to_cake", units.Ratio, &d.Targets.ChipsToCake, 0, 20)
	d.Targets.FreeAirSpace = t.QuantityOr("free_air_space", units.Fraction, d.Targets.FreeAirSpace, yamlfile.Between(0, 0.7),
		yamlfile.Usually(0.2, 0.5, "20 % and more with chips, Eftoda & McCartney, read"))
	d.Targets.BulkDensity = t.QuantityOr("bulk_density", units.MassPerVolume, d.Targets.BulkDensity, yamlfile.Between(200, 1500),
		yamlfile.Usually(475, 800, "475 to 712 kg/m3, LSU AgCenter 3838-D, read"))

	chips := r.group("chips")
	d.Priced = chips.Has("price")
	d.ChipsPrice = chips.QuantityOr("price", units.MoneyPerVolume, 0, yamlfile.NonNegative())
	names := map[string]bool{"cake": true, freshChips: true, recoveredChips: true}
	for _, m := range r.root.ListIf("materials") {
		a := r.amendment(m)
		if names[a.Name] && m.Good("name") {
			m.Error("name", fmt.Sprintf("there is already a material %q", a.Name), "give it a name of its own")
		}
		names[a.Name] = true
		d.Amendments = append(d.Amendments, a)
	}
	if len(d.Amendments) > 0 && !d.Priced {
		chips.Error("price", "amendments can be weighed against chips only if chips have a price", `add a line such as "price: 9 USD/yd3"`)
	}
	return d
}

// Names of the materials that every design has beside cake.
const (
	freshChips     = "fresh chips"
	recoveredChips = "recovered chips"
)

// window reads the bounds of a target. A group that is given replaces both.
func window(t *yamlfile.Map, key string, dim units.Dimension, w *mix.Window, low, high float64) {
	g := t.MapIf(key)
	if !g.Present() {
		return
	}
	w.Low = g.QuantityOr("at_least", dim, 0, yamlfile.Between(low, high))
	w.High = g.QuantityOr("at_most", dim, 0, yamlfile.Between(low, high))
	if g.Good("at_least", "at_most") && w.High > 0 && w.High < w.Low {
		g.Error("at_most", "less than at_least", "")
	}
}

// amendment reads a material that a design may add.
func (r *reader) amendment(m *yamlfile.Map) mix.Material {
	s := material.Spec{
		Name:        m.Text("name"),
		Moisture:    m.Quantity("moisture", units.Fraction, yamlfile.Between(0, 0.9)),
		Volatile:    m.Quantity("volatile_solids", units.Fraction, yamlfile.Between(0.05, 1)),
		Readily:     m.QuantityOr("readily_degradable", units.Fraction, 0, yamlfile.Between(0, 1)),
		Slowly:      m.QuantityOr("slowly_degradable", units.Fraction, 0, yamlfile.Between(0, 1)),
		Nitrogen:    m.Quantity("nitrogen", units.Fraction, yamlfile.Between(0, 0.2)),
		Carbon:      m.QuantityOr("carbon", units.Fraction, 0, yamlfile.Between(0, 0.7)),
		Coarse:      m.QuantityOr("coarse", units.Fraction, 0, yamlfile.Between(0, 1)),
		BulkDensity: m.Quantity("bulk_density", units.MassPerVolume, yamlfile.Between(30, 1500)),
	}
	perKg := cost(m, "cost", s.BulkDensity)
	most := m.QuantityOr("available_per_load", units.Volume, -1, yamlfile.NonNegative())
	out := mix.Material{Name: s.Name, Kind: mix.Amendment, BulkDensity: s.BulkDensity, Available: mix.Unlimited, Cost: perKg}
	if most >= 0 {
		out.Available = most * s.BulkDensity
	}
	if !m.Good("moisture", "volatile_solids", "readily_degradable", "slowly_degradable", "nitrogen", "carbon", "coarse", "bulk_density") {
		return out
	}
	if err := s.Validate(r.m.Chemistry); err != nil {
		r.doc.ErrorAt(m.Position(), err.Error(), "")
	}
	out.Composition = s.OfWet(1)
	return out
}

// cost reads a price per volume as delivered, or per mass, and returns it per
// kg.
func cost(m *yamlfile.Map, key string, density float64) float64 {
	if !m.Has(key) {
		return m.Quantity(key, units.MoneyPerVolume) // says that it is needed
	}
	if perKg, err := units.Parse(m.Text(key), units.MoneyPerMass); err == nil {
		if perKg < 0 {
			m.Error(key, "negative", "an amendment that is paid for by its giver costs 0 here")
		}
		return perKg
	}
	perVolume := m.Quantity(key, units.MoneyPerVolume, yamlfile.NonNegative())
	if !(density > 0) {
		return 0
	}
	return perVolume / density
}
