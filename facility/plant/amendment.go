package plant

import (
	"errors"
	"fmt"
	"time"

	"loamcast/facility/material"
)

// Amendment is what the recipe adds to cake and chips: sawdust, ground yard waste,
// product. Its fines are fine matter, which decays and leaves with the product; its
// coarse matter comes back with the chips. Volumes are loose, as delivered, m3: dry
// mass over the dry bulk density of the material, of product by the volume model.
type Amendment struct {
	Material material.Spec // only the name counts for product
	PerCake  [12]float64   // volume per volume of cake, January first, of the month in which a load is begun
	Without  bool          // a load for which it is short does without; otherwise mixing waits for it
	Source   AmendmentSource
	Store    float64     // room for it, m3; none for product
	Buying   Ordering    // with Supplied
	Own      [12]float64 // with Supplied: m3 a day that come from own sources, January first
	Kept     float64     // with FromProduct: m3 that demand leaves in the product store
}

// AmendmentSource is where an amendment comes from.
type AmendmentSource int

// The sources.
const (
	// Supplied is kept in a store of its own, which fills from own sources, by
	// season, from orders, or from both. What comes from own sources and finds no
	// room is turned away.
	Supplied AmendmentSource = iota
	// FromProduct is taken out of the product store.
	FromProduct
)

// Used reports whether the recipe asks for it in any month.
func (a *Amendment) Used() bool { return mean(a.PerCake[:]) > 0 }

// Room returns the most of it that is on hand, of what is supplied, m3.
func (a *Amendment) Room() float64 {
	if a.Buying.Buys() && mean(a.Own[:]) == 0 {
		return a.Buying.OrderUpTo
	}
	return a.Store
}

// perVolume returns what a m3 of it is, of what is supplied.
func (a *Amendment) perVolume() material.Parcel { return a.Material.OfWet(a.Material.BulkDensity) }

func (a *Amendment) validate(c material.Chemistry) error {
	var errs []error
	name := a.Material.Name
	check := func(ok bool, format string, args ...any) {
		if !ok {
			errs = append(errs, fmt.Errorf(format, args...))
		}
	}
	check(name != "", "an amendment needs a name")
	own := false
	for i := range a.PerCake {
		check(a.PerCake[i] >= 0 && a.Own[i] >= 0, "the amounts of %s cannot be negative", name)
		own = own || a.Own[i] > 0
	}
	if a.Source == FromProduct {
		check(a.Without, "%s is made of what is mixed: mixing cannot wait for it", name)
		check(!own && !a.Buying.Buys(), "%s comes from the product store alone", name)
		check(a.Kept >= 0, "what demand leaves of %s cannot be negative", name)
		return errors.Join(errs...)
	}
	check(a.Store > 0, "the store of %s needs a capacity", name)
	check(own || a.Buying.Buys(), "%s comes from nowhere: it needs a rule of ordering or own sources", name)
	check(a.Kept == 0, "only product is kept from demand, not %s", name)
	errs = append(errs, a.Material.Validate(c))
	if a.Buying.Buys() {
		errs = append(errs, a.Buying.validate(name, a.Store))
	}
	return errors.Join(errs...)
}

func validateAmendments(m *Model) error {
	var errs []error
	names := map[string]bool{}
	for i := range m.Amendments {
		a := &m.Amendments[i]
		errs = append(errs, a.validate(m.Chemistry))
		if names[a.Material.Name] {
			errs = append(errs, fmt.Errorf("two amendments are called %s", a.Material.Name))
		}
		names[a.Material.Name] = true
	}
	if byMonth := m.Recipe.ChipsByMonth; byMonth != nil {
		for i, v := range byMonth {
			if !(v > 0) {
				errs = append(errs, fmt.Errorf("the chips-to-cake ratio of %v must be positive", time.Month(i+1)))
			}
		}
	}
	return errors.Join(errs...)
}

// ChipsIn returns the volume of chips per volume of cake of loads begun in a month.
func (r *Recipe) ChipsIn(month time.Month) float64 {
	if r.ChipsByMonth == nil {
		return r.ChipsPerCake
	}
	return r.ChipsByMonth[month-1]
}

// MeanChips returns the mean of the ratios of the months.
func (r *Recipe) MeanChips() float64 {
	if r.ChipsByMonth == nil {
		return r.ChipsPerCake
	}
	return mean(r.ChipsByMonth[:])
}

// MonthlyAmendment is what one month measured of an amendment; volumes in m3. Of
// product it has only what was mixed and done without.
type MonthlyAmendment struct {
	Bought, BoughtDry float64 // delivered on order
	Truckloads        float64
	Own, OwnDry       float64 // taken in from own sources
	Turned            float64 // of own sources, for which there was no room
	Used, UsedDry     float64 // mixed
	Missed            float64 // that the recipe asked for, and loads did without
	StorePeak         float64 // peak
	StoreEnd          float64 // at the month's end
	HoursShort        float64 // during which mixing waited for it
}
