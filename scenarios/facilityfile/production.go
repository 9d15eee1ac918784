package facilityfile

import (
	"fmt"
	"math"
	"strings"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// amount is a way to say how much cake a plant sends: dry solids, or wet cake, of
// which the dry solids follow from its solids content. What is read goes into a feed,
// and of a table of years into its growth.
type amount struct {
	key  *Key
	wet  bool
	read func(r *reader, m *yamlfile.Map, a *amount, f *plant.Feed, g *grown)
}

// amounts are the ways; a population tells it too.
var amounts = []amount{
	{&baseRows[0].Key, false, (*reader).perDay},
	{&wetPerDay, true, (*reader).perDay},
	{&dryPerYear, false, (*reader).perDay},
	{&wetPerYear, true, (*reader).perDay},
	{&dryByYear, false, (*reader).byYears},
	{&wetByYear, true, (*reader).byYears},
	{&dryByMonth, false, (*reader).byMonths},
	{&wetByMonth, true, (*reader).byMonths},
}

// sends reads what a plant sends, or all of them together: amount, growth, season,
// week and solids content.
func (r *reader) sends(m *yamlfile.Map, f *plant.Feed) grown {
	g := r.growth(growthOf(m))
	f.Growth = g.Growth
	read(m, sentRows, f)
	if m.Good("by_month") && allZero(f.Month[:]) {
		m.Error("by_month", "all months are zero", "write relative values such as 1")
	}
	someDay(m, f.Weekday)
	r.amount(m, f, &g)
	return g
}

// amount reads the mean production of the first year in the one way in which it is
// written, or takes it from the population.
func (r *reader) amount(m *yamlfile.Map, f *plant.Feed, g *grown) {
	told := g.base()
	f.Base = told
	var known, given []string
	for i := range amounts {
		a := &amounts[i]
		key := a.key.Path
		known = append(known, key)
		if !m.Has(key) {
			continue
		}
		given = append(given, key)
		if len(given) > 1 { // it is read even so, for what is wrong with it
			other, growth := *f, *g
			a.read(r, m, a, &other, &growth)
			continue
		}
		a.read(r, m, a, f, g)
	}
	switch {
	case len(given) > 1 && m.Good(given[1]):
		m.Error(given[1], "production is given already, by "+given[0], "keep one of "+strings.Join(known, ", "))
	case len(given) > 0:
		if key := given[0]; told > 0 && m.Good(key, "cake_solids", "by_month") && math.Abs(f.Base-told) > 0.01*told {
			m.Error(key, "the population of growth gives "+units.Format(told, units.MassPerTime, r.units)+" in the mean of the first year", "leave one of the two out, or let them agree")
		}
	case !g.told:
		read(m, baseRows, f)
	}
}

// amountGood reports whether what a plant sends was read and is sound.
func amountGood(m *yamlfile.Map) bool {
	good := m.Present() && m.Good("growth", "cake_solids", "by_month", "by_weekday")
	for i := range amounts {
		good = good && m.Good(amounts[i].key.Path)
	}
	return good
}

// drySolids returns the dry solids in the mean of a year in a mass of wet cake: 1 over the
// mean of the wet cake that goes with a dry mass, by the months with what they send.
// That is the solids content of all cake of a year mixed, not the mean of the months:
// a month that sends more counts for more, and so does wet cake. The months count
// alike, as in by_month. Spread from day to day is left out; one of 4 % would lower
// it by 0.16 %.
func drySolids(f *plant.Feed) float64 {
	wet := 0.0
	for month, solids := range f.CakeSolids {
		wet += f.Month[month] / solids
	}
	return mean(f.Month[:]) * float64(len(f.CakeSolids)) / wet
}

// dryPart is drySolids of what is written wet, and 1 of what is written dry; ok is
// false if what it rests on was not read.
func (a *amount) dryPart(m *yamlfile.Map, f *plant.Feed) (part float64, ok bool) {
	if !a.wet {
		return 1, true
	}
	if !m.Good("cake_solids", "by_month") {
		return 0, false
	}
	return drySolids(f), true
}

// perDay reads an amount per time.
func (r *reader) perDay(m *yamlfile.Map, a *amount, f *plant.Feed, _ *grown) {
	value := m.Quantity(a.key.Path, a.key.Dimension, a.key.checks()...)
	if part, ok := a.dryPart(m, f); ok && m.Good(a.key.Path) {
		f.Base = value * part
	}
}

// byMonths reads the masses of twelve months, which say how much comes and its season.
func (r *reader) byMonths(m *yamlfile.Map, a *amount, f *plant.Feed, _ *grown) {
	key := a.key.Path
	masses := m.Monthly(key, a.key.Dimension, a.key.checks()...)
	if !m.Good(key, "by_month") || a.wet && !m.Good("cake_solids") {
		return
	}
	if m.Has("by_month") {
		m.Error("by_month", key+" tells the season already", "remove one of the two")
		return
	}
	season := [12]float64{}
	for month, mass := range masses {
		season[month] = mass / float64(calendar.DaysIn(2001, time.Month(month+1)))
		if a.wet {
			season[month] *= f.CakeSolids[month]
		}
	}
	if base := mean(season[:]); base < leastDryPerDay {
		m.Error(key, "together these months bring less than any plant of this kind takes in", "write the mass of each month, such as "+a.key.Dimension.Example())
		return
	}
	f.Month, f.Base = season, mean(season[:])
}

// byYears reads the masses of calendar years. Each holds all through its year, those
// of years between lie on a straight line, and the last goes on. Where growth is not
// written, the table tells it too.
func (r *reader) byYears(m *yamlfile.Map, a *amount, f *plant.Feed, g *grown) {
	key := a.key.Path
	table := m.MapIf(key)
	years, masses := yearEntries(table, a.key)
	part, ok := a.dryPart(m, f)
	if !m.Good(key) || !table.Present() || !ok || !r.root.Good("start") {
		return
	}
	if len(table.Names()) == 0 {
		m.Error(key, "the table is empty", "write the mass of some years, e.g. "+a.key.Example)
	}
	if len(years) == 0 {
		return
	}
	start := r.m.Start
	var perDay plant.Lines // by the first of January
	for i, year := range years {
		days := newYear(year).DaysUntil(newYear(year + 1))
		perDay = append(perDay, plant.Point{At: plant.YearsBetween(start, newYear(year)), Value: masses[i] / float64(days)})
	}
	last := years[len(years)-1]
	switch {
	case r.tooSteep(table, perDay):
		return
	case years[0] > start.Year:
		m.Error(key, fmt.Sprintf("the table begins after %v, when the run starts", start), fmt.Sprintf("add a mass for %d", start.Year))
		return
	case last < start.Year:
		m.Warn(key, fmt.Sprintf("the table ends with %d; until the run starts, production is taken to stay as it was", last), fmt.Sprintf("add what you expect for %d", start.Year))
	}
	of := func(year int) float64 { return perDay.At(plant.YearsBetween(start, newYear(year))) }
	var steps plant.Steps
	for year := start.Year + 1; year <= last; year++ {
		steps = append(steps, plant.Point{At: plant.YearsBetween(start, newYear(year)), Value: of(year) / of(start.Year)})
	}
	f.Base = of(start.Year) / steps.Factor(0) * part
	if !m.Has("growth") && len(steps) > 0 {
		f.Growth, g.Growth = steps, steps
	}
}

func newYear(year int) calendar.Date { return calendar.Date{Year: year, Month: time.January, Day: 1} }
