package facilityfile

import (
	"fmt"
	"slices"
	"strings"

	"loamcast/facility/material"
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// chipSource is a source of chips, as the file has it.
type chipSource struct {
	plant.ChipSource
	price [12]float64 // USD/m3 as it comes
	at    *yamlfile.Map
}

var chipSourceRows = []row[chipSource]{
	{Key{Path: "name", Words: "name of the supplier, or of wood of the plant's own", Example: "sawmill", UsedBy: ForShowing},
		text(func(s *chipSource) *string { return &s.Name })},
	{Key{Path: "most_per_month", Words: "what may be ordered of it in a calendar month; the next source brings what is missing", Dimension: units.Volume, Low: 0.1, High: mostVolume,
		Default: elseAs("any amount", ""), Example: "400 yd3"},
		number(func(s *chipSource) *float64 { return &s.Most })},
}

// chipSourcePrice and the others below are read where they belong.
var (
	chipSourcePrice = Key{Path: "price", Kind: Months, Words: "of chips of a supplier, delivered, each month", Dimension: units.MoneyPerVolume, Low: 0, High: 10_000,
		Default: elseAs("not known", ""), Example: "11 USD/yd3", UsedBy: ForPlanning}
	ownChips = Key{Path: "own_per_day", Kind: Months, Words: "what comes by itself, mean of the days of each month, such as yard wood ground on the site; in place of truckload and lead_time; what finds no room is turned away",
		Dimension: units.VolumePerTime, Low: 0, High: mostVolume, Default: none, Example: "4 yd3/day"}
	ownChipsCost = Key{Path: "processing_cost", Kind: Months, Words: "of what comes by itself: grinding, hauling; less than 0 if somebody pays", Dimension: units.MoneyPerVolume, Low: -10_000, High: 10_000,
		Default: elseAs("free", ""), Example: "3 USD/yd3", UsedBy: ForPlanning}
)

// chipSourceSpecRows are those of the composition; left out, it is that of chips.
var chipSourceSpecRows = func() []row[material.Spec] {
	rows := append(compositionRows(nil), row[material.Spec]{
		Key{Path: "fines", Words: "part of the dry mass that falls through the screen when new", Dimension: units.Fraction, Low: 0, High: 0.9},
		quantity(func(s *material.Spec) float64 { return 1 - s.Coarse }, func(s *material.Spec, v float64) { s.Coarse = 1 - v })})
	for i := range rows {
		rows[i].Default = elseAs("that of chips", "")
	}
	return rows
}()

// chipSourceKeys are those of chips.sources.
func chipSourceKeys() []Key {
	const list = "chips.sources"
	const entry = list + "[]"
	supplier := slices.Concat(under(entry, deliveredRows, nil), under(entry, supplyRows, nil))
	for i := range supplier {
		k := &supplier[i]
		k.Uncertain = nil
		switch {
		case k.Path == entry+".bulk_density" || k.Path == entry+".moisture":
			k.When = ""
		case k.When == withoutSources:
			k.When = "without own_per_day"
		}
	}
	return slices.Concat(
		[]Key{{Path: list, Kind: List, Words: "where chips come from, if from several: suppliers, of whom the first is asked first, and wood of the plant's own; all lie in one store", Default: none}},
		under(entry, chipSourceRows, nil),
		supplier,
		placed(entry, chipSourcePrice, ownChips, ownChipsCost),
		under(entry, chipSourceSpecRows, nil),
	)
}

// chipSources reads where chips come from, and what they are to the questions that ask
// about one supplier.
func (r *reader) chipSources(c *yamlfile.Map) {
	chips := &r.m.Chips
	var astray []string
	for _, rows := range [][]row[plant.Chips]{deliveredRows, supplyRows} {
		for i := range rows {
			if c.Has(rows[i].Path) {
				astray = append(astray, rows[i].Path)
			}
		}
	}
	if c.Has(chipSourcePrice.Path) {
		astray = append(astray, chipSourcePrice.Path)
	}
	if len(astray) > 0 {
		c.Error(astray[0], "where there are sources, each of them says this", "write in the sources, or remove: "+strings.Join(astray, ", "))
	}
	var sources []chipSource
	names := map[string]bool{}
	for _, m := range c.List("sources") {
		s := r.chipSource(c, m)
		if m.Good("name") && names[s.Name] {
			m.Error("name", fmt.Sprintf("there is already a source %q", s.Name), "give it a name of its own")
		}
		names[s.Name] = true
		sources = append(sources, s)
		chips.Sources = append(chips.Sources, s.ChipSource)
	}
	if len(sources) > 0 && !slices.ContainsFunc(sources, func(s chipSource) bool { return !s.at.Has(ownChips.Path) }) {
		c.Error("sources", "nothing is bought of any of them", "add a supplier, with truckload and lead_time")
	}
	chips.Combine()
	r.priceChips(sources)
}

// chipSource reads one of them.
func (r *reader) chipSource(c, m *yamlfile.Map) chipSource {
	s := chipSource{at: m}
	var as plant.Chips
	read(m, deliveredRows, &as)
	read(m, chipSourceRows, &s)
	own := m.Has(ownChips.Path)
	price := &chipSourcePrice
	if own {
		price = &ownChipsCost
		s.Own = m.Monthly(ownChips.Path, ownChips.Dimension, ownChips.checks()...)
		if m.Good(ownChips.Path) && allZero(s.Own[:]) {
			m.Error(ownChips.Path, "nothing comes of it", "write what comes in some month, or remove the source")
		}
	} else {
		read(m, supplyRows, &as)
		s.Truckload, s.LeadTime, s.LeadCV = as.Truckload, as.LeadTime, as.LeadCV
	}
	r.ofOtherSources(m, own)
	if m.Has(price.Path) {
		s.price = m.Monthly(price.Path, price.Dimension, price.checks()...)
	}
	s.Moisture = as.Moisture
	s.Fresh = r.m.Chips.Fresh
	s.Fresh.Name, s.Fresh.BulkDensity, s.Fresh.Moisture = "chips", as.Fresh.BulkDensity, mean(as.Moisture[:])
	composition(m, chipSourceSpecRows, &s.Fresh)
	named := s.Fresh
	named.Name = s.Name
	r.check(m, named)
	chips := &r.m.Chips
	if m.Good("truckload", "most_per_month") && s.Most > 0 && s.Most < s.Truckload {
		m.Error("most_per_month", "less than a truckload", "write at least "+units.Format(s.Truckload, units.Volume, r.units))
	}
	if c.Good("order_up_to", "reorder_at") && m.Good("truckload") && chips.OrderUpTo-chips.Reorder < s.Truckload {
		m.Error("truckload", "it does not fit between reorder_at and order_up_to of chips", "raise order_up_to or lower reorder_at")
	}
	return s
}

// ofOtherSources refuses keys of suppliers in wood of the plant's own, and the reverse.
func (r *reader) ofOtherSources(m *yamlfile.Map, own bool) {
	foreign, why := []string{ownChipsCost.Path}, "it belongs to what comes by itself"
	if own {
		foreign, why = []string{"truckload", "lead_time", "lead_time_variation", "most_per_month", "price"}, "it belongs to what is bought, and own_per_day says that this comes by itself"
	}
	for _, key := range foreign {
		if m.Has(key) && m.Good(key) {
			m.Error(key, why, "remove this line")
		}
	}
}

// priceChips tells the prices of all sources in parts of one, the mean price of the
// first supplier who takes one: what is uncertain of it, and its rise, is of all.
func (r *reader) priceChips(sources []chipSource) {
	r.chipPriced = len(sources) > 0
	good := true
	for i := range sources {
		s := &sources[i]
		good = good && s.at.Good(chipSourcePrice.Path, ownChipsCost.Path)
		r.chipPriced = r.chipPriced && (s.at.Has(ownChips.Path) || s.at.Has(chipSourcePrice.Path))
		if r.chipPrice == 0 && !s.at.Has(ownChips.Path) {
			r.chipPrice = mean(s.price[:])
		}
	}
	for i := range sources {
		parts := [12]float64{}
		for month, price := range sources[i].price {
			if r.chipPrice > 0 {
				parts[month] = price / r.chipPrice
			}
		}
		r.p.Economy.ChipSources = append(r.p.Economy.ChipSources, parts)
	}
	for i := range sources {
		s := &sources[i]
		if good && r.chipPriced && r.chipPrice == 0 && !allZero(s.price[:]) {
			s.at.Error(ownChipsCost.Path, "what is bought costs nothing, so that this cannot be told in parts of it", "write the price of a supplier, if it is a cent")
			return
		}
	}
}
