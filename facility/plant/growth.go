package plant

import (
	"math"
	"sort"

	"loamcast/sim/calendar"
)

// Growth is a factor on the base production, by time since the start. The base is
// the mean of the first year, and so is the factor's: over the first year it is 1
// in the mean, whatever its form, which puts a plant that grows a little below the
// base on its first day and above it at the end of the year. A form that is written
// relative to the start keeps its shape and is divided by its own mean of the first
// year.
type Growth interface {
	// Factor returns the factor at t years after the start; before the start it is
	// that of the start.
	Factor(t float64) float64
}

// YearsBetween returns the time from one date to another in years of 365.25
// days, as Growth counts it.
func YearsBetween(from, to calendar.Date) float64 {
	return float64(from.DaysUntil(to)) / calendar.DaysPerYear
}

// Compound grows by Rate per year, compounded: the mean of each year is 1 + Rate
// times that of the year before. Rate is above −1.
type Compound struct{ Rate float64 }

// Factor returns (1 + Rate)^t over its mean from 0 to 1, Rate / ln(1 + Rate).
func (g Compound) Factor(t float64) float64 {
	if g.Rate == 0 {
		return 1
	}
	log := math.Log1p(g.Rate)
	return math.Exp(log*max(t, 0)) * log / g.Rate
}

// Linear grows by Rate times the first year's production each year. Rate is
// between −2 and 2: else production would be nothing in the first year already.
type Linear struct{ Rate float64 }

// Factor returns 1 + Rate·(t − ½), never below 0.
func (g Linear) Factor(t float64) float64 { return max(0, 1+g.Rate*(max(t, 0)-0.5)) }

// Logistic grows towards a Ceiling, a factor above 0 on production at the start,
// ever more slowly. Rate, per year, is that of growth far below the ceiling; it
// begins with Rate·(1 − 1/Ceiling). (Verhulst's curve, derived.)
type Logistic struct{ Ceiling, Rate float64 }

// Factor returns the curve through 1 at the start,
// Ceiling / (1 + (Ceiling − 1)·e^(−Rate·t)), over its mean from 0 to 1,
// Ceiling/Rate · ln((e^Rate + Ceiling − 1) / Ceiling).
func (g Logistic) Factor(t float64) float64 {
	if g.Rate == 0 {
		return 1
	}
	firstYear := g.Ceiling / g.Rate * math.Log1p(math.Expm1(g.Rate)/g.Ceiling)
	return g.Ceiling / (1 + (g.Ceiling-1)*math.Exp(-g.Rate*max(t, 0))) / firstYear
}

// ByYear is a table of values, of which only their ratios count: entry i holds at
// the start of year i, straight lines between, the last entry onwards.
type ByYear []float64

// Factor interpolates the table, and divides by its mean from 0 to 1.
func (g ByYear) Factor(t float64) float64 {
	if len(g) == 0 {
		return 1
	}
	return g.at(max(t, 0)) * 2 / (g.at(0) + g.at(1))
}

// at returns the table's value at t ≥ 0.
func (g ByYear) at(t float64) float64 {
	i := int(t)
	if i >= len(g)-1 {
		return g[len(g)-1]
	}
	return g[i] + (t-float64(i))*(g[i+1]-g[i])
}

// Point is a value at a time, years since the start.
type Point struct{ At, Value float64 }

// Steps jumps to the value of each point at its time, and keeps it until the
// next. Values compare with 1, production before the first step. The points are in
// order, all after the start.
type Steps []Point

// Factor returns the value of the last point that has come, 1 before the first,
// over the mean from 0 to 1. That is 1 too unless a step falls into the first year.
func (g Steps) Factor(t float64) float64 {
	firstYear, value, since := 0.0, 1.0, 0.0
	for _, p := range g {
		if p.At >= 1 {
			break
		}
		firstYear += value * (p.At - since)
		value, since = p.Value, p.At
	}
	firstYear += value * (1 - since)
	i := sort.Search(len(g), func(i int) bool { return g[i].At > t })
	if i == 0 {
		return 1 / firstYear
	}
	return g[i-1].Value / firstYear
}

// Lines joins points by straight lines, the first and last value going on before
// and after. Values are positive and in any unit, such as people: only their
// ratio to the mean of the first year counts. The points are in order.
type Lines []Point

// Factor returns the value at t over the mean from 0 to 1.
func (g Lines) Factor(t float64) float64 {
	firstYear, value, since := 0.0, g.At(0), 0.0
	piece := func(at float64) {
		next := g.At(at)
		firstYear += (value + next) / 2 * (at - since)
		value, since = next, at
	}
	for _, p := range g {
		if p.At > 0 && p.At < 1 {
			piece(p.At)
		}
	}
	piece(1)
	return g.At(max(t, 0)) / firstYear
}

// At returns the value at t.
func (g Lines) At(t float64) float64 {
	i := sort.Search(len(g), func(i int) bool { return g[i].At > t })
	switch i {
	case 0:
		return g[0].Value
	case len(g):
		return g[i-1].Value
	}
	a, b := g[i-1], g[i]
	return a.Value + (b.Value-a.Value)*(t-a.At)/(b.At-a.At)
}

// Later is growth as it looks from a later start.
type Later struct {
	Growth Growth
	Years  float64
}

// Factor returns the factor at t years after the later start, which may be
// before it.
func (g Later) Factor(t float64) float64 { return g.Growth.Factor(g.Years + t) }

// Faster is growth that is faster by Rate per year, compounded; slower if Rate
// is negative. [NewFaster] makes it.
type Faster struct {
	Growth Growth
	Rate   float64

	log   float64 // of 1 + Rate
	level float64 // what (1 + Rate)^t adds to the mean of the first year, as a factor
}

// NewFaster returns a growth that is faster by rate per year. Its first year's mean
// is that of g: the base is known, and only what comes after grows faster.
func NewFaster(g Growth, rate float64) Faster {
	f := Faster{Growth: g, Rate: rate, log: math.Log1p(rate)}
	const days = 365
	with, without := 0.0, 0.0
	for day := range days {
		t := atNoon(day)
		factor := g.Factor(t)
		without += factor
		with += factor * math.Exp(f.log*t)
	}
	f.level = with / without
	return f
}

// Factor returns the factor of Growth times (1 + Rate)^t, at the level at which the
// first year's mean is that of Growth.
func (g Faster) Factor(t float64) float64 {
	return g.Growth.Factor(t) * math.Exp(g.log*max(t, 0)) / g.level
}

// atNoon returns the years from the start to noon of a day, counted from 0: growth
// during the day is that at its middle.
func atNoon(day int) float64 { return (float64(day) + 0.5) / calendar.DaysPerYear }
