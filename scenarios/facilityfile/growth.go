package facilityfile

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// grown is growth as it was read.
type grown struct {
	plant.Growth
	told   bool    // a population tells production
	people float64 // how many there are at the start
	perDay float64 // what each gives, kg dry/day
	source string  // of the population
}

// growthForms are the ways to write growth; population stands apart, since it
// holds one of the others.
var growthForms = []struct {
	key  string
	read func(*reader, *yamlfile.Map) plant.Growth
}{
	{"compound", (*reader).compound},
	{"linear", (*reader).linear},
	{"logistic", (*reader).logistic},
	{"by_year", (*reader).byYear},
	{"by_calendar_year", (*reader).byCalendarYear},
	{"steps", (*reader).steps},
}

// growthOf returns the group of growth of some production. A rate by itself is taken to
// be compound, which is how rates of growth are mostly told.
func growthOf(m *yamlfile.Map) *yamlfile.Map { return m.MapInstead("growth", inForm) }

// neededGrowth is growthOf where there must be one.
func neededGrowth(m *yamlfile.Map) *yamlfile.Map {
	if m.Has("growth") {
		return growthOf(m)
	}
	return m.Map("growth")
}

// inForm is what to write in place of a single value.
func inForm(text string) string {
	rate := compoundRows[0].Example
	for _, as := range []string{text, text + " %/year", text + "/year"} {
		if _, err := units.Parse(as, units.AnnualRate); err == nil {
			rate = as
			break
		}
	}
	return "write growth: {compound: " + rate + "}, or another form of growth"
}

// growth reads one of the forms of growth; without any, production stays.
func (r *reader) growth(g *yamlfile.Map) grown {
	out := grown{Growth: r.form(g, "population")}
	if p := g.MapIf("population"); p.Present() {
		out = r.population(p)
	}
	out.told = g.Has("population")
	return out
}

// form reads the one form of growth that is in a group; others are further keys
// that count as forms but are read elsewhere.
func (r *reader) form(g *yamlfile.Map, others ...string) plant.Growth {
	var out plant.Growth = plant.Compound{}
	var known, given []string
	for _, form := range growthForms {
		known = append(known, form.key)
		if !g.Has(form.key) {
			continue
		}
		read := form.read(r, g) // even of a second form, so that its keys are known
		if len(given) == 0 {
			out = read
		}
		given = append(given, form.key)
	}
	for _, key := range others {
		known = append(known, key)
		if g.Has(key) {
			given = append(given, key)
		}
	}
	switch {
	case len(given) > 1:
		g.Error(given[1], "growth is given already, by "+given[0], "keep one of "+strings.Join(known, ", "))
	case g.Empty():
		r.doc.ErrorAt(g.Position(), g.Path()+" does not say how production grows", "write one of "+strings.Join(known, ", ")+`, such as "compound: 0 %/year"`)
	}
	return out
}

// formOf reads a form that is made of rows.
func formOf[G plant.Growth](m *yamlfile.Map, rows []row[G]) plant.Growth {
	var g G
	read(m, rows, &g)
	return g
}

func (r *reader) compound(g *yamlfile.Map) plant.Growth { return formOf(g, compoundRows) }

func (r *reader) linear(g *yamlfile.Map) plant.Growth { return formOf(g, linearRows) }

func (r *reader) logistic(g *yamlfile.Map) plant.Growth {
	return formOf(g.MapIf("logistic"), logisticRows)
}

func (r *reader) byYear(g *yamlfile.Map) plant.Growth {
	table := g.Quantities(byYear.Path, byYear.Dimension, byYear.checks()...)
	switch {
	case !g.Good("by_year"):
	case len(table) == 0:
		g.Error("by_year", "the table is empty", "write a factor for the start of each year, e.g. [1, 1.02, 1.05]")
	case table[0] != 1:
		g.Error("by_year", "the first factor holds at the start and must be 1", "write factors relative to production at the start, e.g. [1, 1.02, 1.05]")
	}
	return plant.ByYear(table)
}

var yearText = regexp.MustCompile(`^\d{4}$`)

// byCalendarYear reads a table of values on the first of January of some years.
func (r *reader) byCalendarYear(g *yamlfile.Map) plant.Growth {
	table := g.MapIf("by_calendar_year")
	var lines plant.Lines
	years, values := yearEntries(table, &byCalendarYear)
	if len(years) < len(table.Names()) {
		return plant.Compound{}
	}
	for i, year := range years {
		lines = append(lines, plant.Point{At: plant.YearsBetween(r.m.Start, newYear(year)), Value: values[i]})
	}
	switch {
	case !g.Good("by_calendar_year") || !table.Present():
	case len(lines) == 0:
		g.Error("by_calendar_year", "the table is empty", "write a value for some years, e.g. {2027: 1, 2037: 1.2}")
	case r.tooSteep(table, lines):
	case lines[0].At > 0 && r.root.Good("start"):
		g.Error("by_calendar_year", fmt.Sprintf("the table begins after %v, when the run starts", r.m.Start), fmt.Sprintf("add a value for %d", r.m.Start.Year))
	}
	if len(lines) == 0 {
		return plant.Compound{}
	}
	return lines
}

// yearEntries reads a table by calendar year, in its order. It returns nothing if an
// entry is at fault.
func yearEntries(table *yamlfile.Map, k *Key) (years []int, values []float64) {
	for _, name := range table.Names() {
		year, err := strconv.Atoi(name)
		if !yearText.MatchString(name) || err != nil || year < firstYear || year > lastYear {
			table.Error(name, "not a calendar year", notAYear(name))
			return nil, nil
		}
		value := table.Quantity(name, k.Dimension, k.checks()...)
		if n := len(years); n > 0 && year <= years[n-1] {
			table.Error(name, "the years are not in order", "put the earliest first")
		}
		if !table.Good(name) {
			return nil, nil
		}
		years, values = append(years, year), append(values, value)
	}
	return years, values
}

// tooSteep reports whether a table makes more of production, or less, than any form
// of growth may, and complains of the first year of which that is so.
func (r *reader) tooSteep(table *yamlfile.Map, lines plant.Lines) bool {
	for i, name := range table.Names() {
		if factor := lines[i].Value / lines.At(0); factor < leastFactor || factor > mostFactor {
			table.Error(name, "that is "+units.FormatNumber(factor)+" times what the table has at the start",
				fmt.Sprintf("it must be from %g to %g times as much; check the digits", leastFactor, float64(mostFactor)))
			return true
		}
	}
	return false
}

// notAYear says what to write instead of a key that is no year.
func notAYear(name string) string {
	if strings.Trim(name, "0123456789") == "" && len(name) == 3 {
		return "inside { } a comma ends a value: leave the comma out of the number"
	}
	return fmt.Sprintf("write a year from %d to %d", firstYear, lastYear)
}

// steps reads the dates on which production jumps.
func (r *reader) steps(g *yamlfile.Map) plant.Growth {
	list := g.List("steps")
	var steps plant.Steps
	for _, s := range list {
		step := plant.Point{At: plant.YearsBetween(r.m.Start, date(s, growthStepDate.Path))}
		read(s, stepOfGrowthRows, &step)
		switch {
		case !s.Good("date") || !r.root.Good("start"):
			continue
		case step.At <= 0:
			s.Error("date", "a step compares with production at the start, so that it comes later", fmt.Sprintf("write a date after %v", r.m.Start))
			continue
		case len(steps) > 0 && step.At <= steps[len(steps)-1].At:
			s.Error("date", "the steps are not in order of their dates", "put the earliest first")
		}
		steps = append(steps, step)
	}
	return steps
}

// population reads production as people times what each of them gives.
func (r *reader) population(p *yamlfile.Map) grown {
	out := grown{Growth: r.form(p)}
	r.people(p, &out)
	read(p, populationRows, &out)
	if p.Good("per_person", "people") && out.base() > mostDryPerDay {
		p.Error("per_person", "together these people give more than any plant of this kind takes in", "check people and per_person")
	}
	return out
}

// base returns what the people give in the mean of the first year, kg dry/day: the
// number of people is that at the start.
func (g *grown) base() float64 { return g.people / g.Growth.Factor(0) * g.perDay }

// people reads how many there are at the start: the number that is written, or
// that of the table.
func (r *reader) people(p *yamlfile.Map, g *grown) {
	if !p.Has("by_calendar_year") {
		read(p, peopleRows, g)
		return
	}
	if p.Has("people") {
		p.Error("people", "the table by_calendar_year says how many there are", "remove one of the two")
	}
	if table, ok := g.Growth.(plant.Lines); ok {
		g.people = table.At(0)
	}
}
