package facilityfile

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// MixDesign is what the file says about the design of a mix. A run uses it only
// where the recipe is Designed; else it mixes by the ratios of the file.
type MixDesign struct {
	Targets mix.Targets
	// Priced says whether the file has the price of fresh chips; without one a
	// design uses as few of them as it can.
	Priced     bool
	ChipsPrice float64 // of fresh chips, USD/m3 loose
	// Designed says that the recipe of runs is the design of each month's cake.
	Designed bool
	// Amendments have their cost in USD/kg, and Available is kg for each vessel
	// load.
	Amendments []mix.Material
}

// DefaultMixTargets returns the targets for what the file leaves out.
//
// Moisture of at most 65 % and C:N of 25 to 35 are those for biosolids in
// vessels (environmental engineering handbook, table 7.55.1, read). Bulk density
// of at most 712 kg/m3 is the end of the reasonable range of LSU AgCenter
// 3838-D, after NRAES-54 (read). Free air space of 23 % is the 20 % of Eftoda &
// McCartney (read) and three points more for cake that is wetter one day than another
// (assumption).
func DefaultMixTargets() mix.Targets {
	return mix.Targets{
		Solids:           mix.Window{Low: 0.35},
		CarbonToNitrogen: mix.Window{Low: 25, High: 35},
		FreeAirSpace:     0.23,
		BulkDensity:      712,
	}
}

// mixDesign reads mix.targets, chips.price and the amendments.
func (r *reader) mixDesign() (d MixDesign) {
	t := r.group("mix").MapIf("targets")
	d.Targets = DefaultMixTargets()
	read(t, mixTargetRows, &d.Targets)
	if r.root.IsMap("structure") && r.root.MapIf("structure").Is("account", allAir) && !t.Has("free_air_space") {
		d.Targets.FreeAirSpace = freeOfAllAir
	}
	for _, w := range mixWindows {
		w.read(t, &d.Targets)
	}

	chips := r.group("chips")
	if chips.Has("sources") {
		d.Priced, d.ChipsPrice = r.chipPriced, r.chipPrice
	} else {
		d.Priced = chips.Has("price")
		read(chips, chipsPriceRows, &d)
	}
	names := map[string]bool{"cake": true, freshChips: true, recoveredChips: true}
	for _, m := range r.root.ListIf("materials") {
		a := r.amendment(m)
		if names[a.Name] && m.Good("name") {
			m.Error("name", fmt.Sprintf("there is already a material %q", a.Name), "give it a name of its own")
		}
		names[a.Name] = true
		d.Amendments = append(d.Amendments, a)
	}
	read(r.group("mix"), designedRows, &d)
	r.designed = d.Designed
	r.recipeAmendments(&d)
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

// read reads the ends of a target. A group that is given replaces both.
func (w *mixWindow) read(t *yamlfile.Map, targets *mix.Targets) {
	g := t.MapIf(w.path)
	if !g.Present() {
		return
	}
	var ends mix.Window
	read(g, w.rows(), &ends)
	if g.Good("at_least", "at_most") && ends.High > 0 && ends.High < ends.Low {
		g.Error("at_most", "less than at_least", "")
	}
	*w.at(targets) = ends
}

// amendment reads a material that a design may add.
func (r *reader) amendment(m *yamlfile.Map) mix.Material {
	a := amendment{most: -1}
	read(m, amendmentRows, &a)
	read(m, fineRows(nil), &a.Spec)
	s := a.Spec
	if r.specs == nil {
		r.specs = map[string]material.Spec{}
	}
	r.specs[s.Name] = s
	out := mix.Material{Name: s.Name, Kind: mix.Amendment, BulkDensity: s.BulkDensity, Available: mix.Unlimited, Cost: cost(m, s.BulkDensity)}
	if a.most >= 0 {
		out.Available = a.most * s.BulkDensity
	}
	if !m.Good("moisture", "volatile_solids", "rapidly_degradable", "readily_degradable", "slowly_degradable", "nitrogen", "carbon", "coarse", "bulk_density") {
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
func cost(m *yamlfile.Map, density float64) float64 {
	k := &amendmentCost
	if m.Has(k.Path) {
		switch text := m.Text(k.Path); {
		case !m.Good(k.Path):
			return 0
		case perMass(text):
			return m.Quantity(k.Path, units.MoneyPerMass, yamlfile.Between(0, dearest))
		}
	}
	perVolume := m.Quantity(k.Path, k.Dimension, k.checks()...)
	if !(density > 0) {
		return 0
	}
	return perVolume / density
}

// dearest is the most that an amendment may cost, USD/kg.
const dearest = 1000

// perMass reports whether a text is a price per mass.
func perMass(text string) bool {
	_, err := units.Parse(text, units.MoneyPerMass)
	return err == nil
}
