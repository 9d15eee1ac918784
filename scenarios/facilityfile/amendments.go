package facilityfile

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/facility/material"
	"loamcast/facility/mix"
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// AmendmentPrice is what an amendment of the recipe costs, USD/m3 as delivered.
type AmendmentPrice struct{ Bought, Own float64 }

// screenedProduct is the material that stands for product.
const screenedProduct = "product"

// recipeAmendments reads the amendments of the recipe, whose materials were read.
func (r *reader) recipeAmendments(design *MixDesign) {
	used := map[string]bool{}
	for _, m := range r.group("mix").ListIf("amendments") {
		var a inRecipe
		rows := recipeAmendmentRows
		read(m, rows[:1], &a)
		i := slices.IndexFunc(design.Amendments, func(x mix.Material) bool { return x.Name == a.name })
		switch {
		case !m.Good("material"):
			leave(m)
		case used[a.name]:
			leave(m)
			m.Error("material", fmt.Sprintf("%q is in the recipe already", a.name), "write it once, with twelve ratios if it changes")
		case i < 0 && a.name != screenedProduct:
			leave(m)
			if r.materialsNamed() {
				m.Error("material", fmt.Sprintf("there is no material %q", a.name), "write one of: "+r.materialNames(design))
			}
		case i < 0:
			r.mixedProduct(m, &a)
		default:
			r.supplied(m, &a, r.specs[a.name])
			cost := design.Amendments[i].Cost * design.Amendments[i].BulkDensity
			r.p.Economy.Amendments = append(r.p.Economy.Amendments, AmendmentPrice{Bought: cost, Own: a.ownPrice})
		}
		used[a.name] = true
		r.m.Amendments = append(r.m.Amendments, a.Amendment)
		r.recipeAt = append(r.recipeAt, m)
	}
}

// leave takes note of what is said of an amendment whose material is not known, so that
// no more than that is complained of.
func leave(m *yamlfile.Map) {
	for i := range recipeAmendmentRows {
		m.Has(recipeAmendmentRows[i].Path)
	}
	bought := m.MapIf("bought")
	for i := range buyingRows {
		bought.Has(buyingRows[i].Path)
	}
}

// materialsNamed reports whether no name of a material was complained of.
func (r *reader) materialsNamed() bool {
	for _, m := range r.root.ListIf("materials") {
		if !m.Good("name") {
			return false
		}
	}
	return true
}

func (r *reader) materialNames(design *MixDesign) string {
	var names []string
	for i := range design.Amendments {
		names = append(names, design.Amendments[i].Name)
	}
	return strings.Join(append(names, screenedProduct), ", ")
}

// perCake reads the ratio, which a designed recipe finds itself.
func (r *reader) perCake(m *yamlfile.Map, a *inRecipe) {
	if r.designed {
		if m.Has("to_cake") {
			m.Error("to_cake", "the recipe is designed, which finds the ratio itself", "remove this line, or write recipe: as written")
		}
		return
	}
	read(m, recipeAmendmentRows[1:2], a)
	if m.Good("to_cake") && !a.Used() {
		m.Error("to_cake", "a load never holds any of it", "write a ratio for some month, or remove the amendment")
	}
}

// mixedProduct reads product that goes back into the mix.
func (r *reader) mixedProduct(m *yamlfile.Map, a *inRecipe) {
	r.perCake(m, a)
	if r.designed {
		m.Error("material", "product cannot be designed, as it is made of what is mixed", "remove it, or write recipe: as written")
	}
	a.Material = material.Spec{Name: screenedProduct}
	a.Source = plant.FromProduct
	if m.Is("when_short", waits) {
		m.Error("when_short", "product is made of what is mixed: mixing cannot wait for it", "write "+without+", or remove this line")
	}
	read(m, recipeAmendmentRows[2:4], a)
	a.Without = true
	for _, key := range []string{"store", "own_per_day", "own_price", "bought"} {
		if m.Has(key) {
			m.Error(key, "product comes from the product store and from nowhere else", "remove this line")
		}
	}
	r.p.Economy.Amendments = append(r.p.Economy.Amendments, AmendmentPrice{})
}

// supplied reads an amendment with a store of its own.
func (r *reader) supplied(m *yamlfile.Map, a *inRecipe, s material.Spec) {
	r.perCake(m, a)
	a.Material = s
	read(m, recipeAmendmentRows[2:3], a)
	if m.Has("kept") {
		m.Error("kept", "only product is kept from demand", "remove this line")
	}
	read(m, recipeAmendmentRows[4:], a)
	b := m.MapIf("bought")
	if !b.Present() {
		if m.Good("own_per_day") && allZero(a.Own[:]) {
			m.Error("own_per_day", "it comes from nowhere", "write what comes in some month, or add how it is bought: bought: {reorder_at: …}")
		}
		return
	}
	o := &a.Buying
	read(b, buyingRows, o)
	if b.Good("order_up_to") && m.Good("store") && o.OrderUpTo > a.Store {
		b.Error("order_up_to", "more than the store holds", "write at most "+units.Format(a.Store, units.Volume, r.units))
	}
	if b.Good("order_up_to", "reorder_at", "truckload") && o.OrderUpTo-o.Reorder < o.Truckload {
		b.Error("order_up_to", "a truckload does not fit between reorder_at and order_up_to", "raise order_up_to or lower reorder_at")
	}
}

// notDrawn refuses an uncertain ratio of chips where the recipe is designed.
func (r *reader) notDrawn() {
	for i := range r.p.Inputs {
		if r.designed && r.p.Inputs[i].Key == "mix.chips_to_cake" {
			at := r.uncertainAt[i]
			at.entry.Error(at.form, "the recipe is designed, and its ratio of chips is not drawn", "remove it, or write recipe: as written")
		}
	}
}

// recipeTogether says what arithmetic sees of the recipe: amendments whose store does
// not hold what a batch takes, and own sources that bring less in a year than the
// recipe asks for.
func (r *reader) recipeTogether() {
	if r.doc.Err() != nil || len(r.m.Amendments) == 0 || r.m.Validate() != nil {
		return
	}
	for i, need := range r.m.AmendmentNeeds() {
		a, m := &r.m.Amendments[i], r.recipeAt[i]
		if a.Source == plant.FromProduct {
			continue
		}
		shown := func(m3 float64) string { return units.Format(m3, units.Volume, r.units) }
		key, at := "store", m
		if a.Room() < a.Store {
			key, at = "order_up_to", m.MapIf("bought")
		}
		if !a.Without && a.Room() < need.Batch {
			at.Error(key, fmt.Sprintf("a batch takes up to %s of %s, so that none could ever be mixed", shown(need.Batch), a.Material.Name), "write more, or when_short: "+without)
			continue
		}
		if own := need.Own; !a.Buying.Buys() && own < need.Year {
			what := "mixing will wait for it"
			if a.Without {
				what = "loads will do without"
			}
			m.Warn("own_per_day", fmt.Sprintf("in a year %s of %s come, and the recipe asks for some %s in the first: %s", shown(own), a.Material.Name, shown(need.Year), what), "")
		}
	}
}
