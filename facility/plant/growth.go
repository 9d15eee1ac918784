package plant

import (
	"math"
	"sort"

	"loamcast/sim/calendar"
)

// Growth is a factor on the base production, by time since the start.
type Growth interface {
	// Factor returns the factor at t years after the start, 1 at t ≤ 0.
	Factor(t float64) float64
}

// YearsBetween returns the time from one date to another in years of 365.25
// days, as Growth counts it.
func YearsBetween(from, to calendar.Date) float64 {
	return float64(from.DaysUntil(to)) / daysPerYear
}

// Compound grows by Rate per year, compounded.
type Compound struct{ Rate float64 }

// Factor returns (1 + Rate)^t.
func (g Compound) Factor(t float64) float64 { return math.Pow(1+g.Rate, max(t, 0)) }

// Linear grows by Rate times the first year's production each year.
type Linear struct{ Rate float64 }

// Factor returns 1 + Rate·t, never below 0.
func (g Linear) Factor(t float64) float64 { return max(0, 1+g.Rate*max(t, 0)) }

// Logistic grows towards a Ceiling, a factor above 0, ever more slowly. Rate,
// per year, is that of growth far below the ceiling; it begins with
// Rate·(1 − 1/Ceiling). (Verhulst's curve through 1 at the start, derived.)
type Logistic struct{ Ceiling, Rate float64 }

// Factor returns Ceiling / (1 + (Ceiling − 1)·e^(−Rate·t)).
func (g Logistic) Factor(t float64) float64 {
	return g.Ceiling / (1 + (g.Ceiling-1)*math.Exp(-g.Rate*max(t, 0)))
}

// ByYear is a table of factors: entry i holds at the start of year i, straight
// lines between, the last entry onwards.
type ByYear []float64

// Factor interpolates the table.
func (g ByYear) Factor(t float64) float64 {
	if t <= 0 || len(g) == 0 {
		return 1
	}
	i := int(t)
	if i >= len(g)-1 {
		return g[len(g)-1]
	}
	return g[i] + (t-float64(i))*(g[i+1]-g[i])
}

// Point is a value at a time, years since the start.
type Point struct{ At, Value float64 }

// Steps jumps to the factor of each point at its time, and keeps it until the
// next. The points are in order, all after the start.
type Steps []Point

// Factor returns the value of the last point that has come, 1 before the first.
func (g Steps) Factor(t float64) float64 {
	i := sort.Search(len(g), func(i int) bool { return g[i].At > t })
	if i == 0 {
		return 1
	}
	return g[i-1].Value
}

// Lines joins points by straight lines, the first and last value going on before
// and after. Values are positive and in any unit, such as people: only their
// ratio to the value at the start counts. The points are in order.
type Lines []Point

// Factor returns the value at t over that at the start.
func (g Lines) Factor(t float64) float64 {
	if t <= 0 {
		return 1
	}
	return g.At(t) / g.At(0)
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
// is negative.
type Faster struct {
	Growth Growth
	Rate   float64
}

// Factor returns the factor of Growth times (1 + Rate)^t.
func (g Faster) Factor(t float64) float64 {
	return g.Growth.Factor(t) * math.Pow(1+g.Rate, max(t, 0))
}
