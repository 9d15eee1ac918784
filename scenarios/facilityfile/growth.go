package facilityfile

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim/calendar"
)

// grown is growth as it was read.
type grown struct {
	plant.Growth
	people bool    // a population tells production
	perDay float64 // what it tells of the first year, kg dry/day
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

// growth reads one of the forms of growth; without any, production stays.
func (r *reader) growth(g *yamlfile.Map) grown {
	out := grown{Growth: r.form(g, "population")}
	if p := g.MapIf("population"); p.Present() {
		out = r.population(p)
	}
	out.people = g.Has("population")
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
	if len(given) > 1 {
		g.Error(given[1], "growth is given already, by "+given[0], "keep one of "+strings.Join(known, ", "))
	}
	return out
}

// steepest is the most that production may grow or shrink in a year.
var steepest = yamlfile.Between(-0.2, 0.3)

func (r *reader) compound(g *yamlfile.Map) plant.Growth {
	return plant.Compound{Rate: g.Quantity("compound", units.AnnualRate, steepest,
		yamlfile.Usually(-0.03, 0.06, "long-term growth of a town, common practice, no source"))}
}

func (r *reader) linear(g *yamlfile.Map) plant.Growth {
	return plant.Linear{Rate: g.Quantity("linear", units.AnnualRate, steepest)}
}

// factorRange is what production may become of itself.
var factorRange = yamlfile.Between(0.01, 100)

func (r *reader) logistic(g *yamlfile.Map) plant.Growth {
	l := g.MapIf("logistic")
	return plant.Logistic{
		Ceiling: l.Quantity("ceiling", units.Ratio, factorRange),
		Rate:    l.Quantity("rate", units.AnnualRate, yamlfile.Positive(), yamlfile.AtMost(1)),
	}
}

func (r *reader) byYear(g *yamlfile.Map) plant.Growth {
	table := g.Quantities("by_year", units.Ratio, factorRange)
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
	for _, name := range table.Names() {
		year, err := strconv.Atoi(name)
		if !yearText.MatchString(name) || err != nil || year < firstYear || year > lastYear {
			table.Error(name, "not a calendar year", notAYear(name))
			return plant.Compound{}
		}
		value := table.Quantity(name, units.Dimensionless, yamlfile.Positive())
		at := plant.YearsBetween(r.m.Start, calendar.Date{Year: year, Month: 1, Day: 1})
		if n := len(lines); n > 0 && at <= lines[n-1].At {
			table.Error(name, "the years are not in order", "put the earliest first")
		}
		if !table.Good(name) {
			return plant.Compound{}
		}
		lines = append(lines, plant.Point{At: at, Value: value})
	}
	switch {
	case !g.Good("by_calendar_year") || !table.Present():
	case len(lines) == 0:
		g.Error("by_calendar_year", "the table is empty", "write a value for some years, e.g. {2027: 1, 2037: 1.2}")
	case lines[0].At > 0 && r.root.Good("start"):
		g.Error("by_calendar_year", fmt.Sprintf("the table begins after %v, when the run starts", r.m.Start), fmt.Sprintf("add a value for %d", r.m.Start.Year))
	}
	if len(lines) == 0 {
		return plant.Compound{}
	}
	return lines
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
		date := r.date(s, "date")
		step := plant.Point{At: plant.YearsBetween(r.m.Start, date), Value: s.Quantity("factor", units.Ratio, factorRange)}
		switch {
		case !s.Good("date") || !r.root.Good("start"):
		case step.At <= 0:
			s.Error("date", "a step compares with production at the start, so that it comes later", fmt.Sprintf("write a date after %v", r.m.Start))
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
	// The number of people is that at the start, dry_per_day the mean of the first year.
	out.perDay = r.people(p, out.Growth) / out.Growth.Factor(0) * p.Quantity("per_person", units.MassPerTime, yamlfile.Between(0.001, 1),
		yamlfile.Usually(0.02, 0.12, "about 0.042 kg of primary solids a day, course solution, read; with secondary solids twice that, from memory"))
	out.source = p.Text("source")
	if p.Good("per_person", "people") && out.perDay > mostDryPerDay {
		p.Error("per_person", "together these people give more than any plant of this kind takes in", "check people and per_person")
	}
	return out
}

// people returns how many there are at the start: the number that is written, or
// that of the table.
func (r *reader) people(p *yamlfile.Map, growth plant.Growth) float64 {
	if !p.Has("by_calendar_year") {
		return p.Quantity("people", units.Dimensionless, yamlfile.Between(1, 1e9))
	}
	if p.Has("people") {
		p.Error("people", "the table by_calendar_year says how many there are", "remove one of the two")
	}
	if table, ok := growth.(plant.Lines); ok {
		return table.At(0)
	}
	return 0
}

// base reads the mean production of the first year, or takes it from the population.
func (r *reader) base(solids *yamlfile.Map) float64 {
	checks := []yamlfile.Check{yamlfile.Positive(), yamlfile.AtMost(mostDryPerDay)}
	if !r.grown.people {
		return solids.Quantity("dry_per_day", units.MassPerTime, checks...)
	}
	told := r.grown.perDay
	written := solids.QuantityOr("dry_per_day", units.MassPerTime, told, checks...)
	if solids.Good("dry_per_day") && told > 0 && math.Abs(written-told) > 0.01*told {
		solids.Error("dry_per_day", "the population of growth gives "+units.Format(told, units.MassPerTime, r.units)+" in the mean of the first year", "leave one of the two out, or let them agree")
	}
	return written
}
