package plant

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
	"loamcast/sim/random"
)

// Each form of growth has the factors that its equation gives by hand: the shape,
// over the shape's mean from 0 to 1, which is worked out here piece by piece.
func TestGrowthFactors(t *testing.T) {
	people := Lines{{-2, 19000}, {3, 21500}, {13, 30000}} // 20,000 at the start, 20,250 half a year later
	compound := 0.02 / math.Log(1.02)                     // ∫ 1.02^t dt from 0 to 1
	for _, c := range []struct {
		name   string
		growth Growth
		at     float64
		want   float64
	}{
		{"none", Compound{}, 7, 1},
		{"compound", Compound{0.02}, 3, 1.061208 / compound},
		{"compound, before the start", Compound{0.02}, -3, 1 / compound},
		{"linear", Linear{0.02}, 3.5, 1.06},
		{"linear, at the start", Linear{0.02}, 0, 0.99},
		{"linear, shrunk to nothing", Linear{-0.2}, 8, 0},
		{"logistic at no rate", Logistic{1.8, 0}, 8, 1},
		// 1.8 / (1 + 0.8·e^−0.6) = 1.8 / (1 + 0.8·0.548811636094); the mean is
		// 1.8/0.06·ln((e^0.06 + 0.8)/1.8), with e^0.06 = 1.061836546545.
		{"logistic", Logistic{1.8, 0.06}, 10, 1.8 / (1 + 0.8*0.5488116360940264) / (30 * math.Log((1.0618365465453596+0.8)/1.8))},
		{"logistic, before the start", Logistic{1.8, 0.06}, -3, 1 / (30 * math.Log((1.0618365465453596+0.8)/1.8))},
		{"logistic, at last", Logistic{1.8, 0.06}, 1000, 1.8 / (30 * math.Log((1.0618365465453596+0.8)/1.8))},
		{"by year, one value", ByYear{3}, 1.5, 1},
		{"by year", ByYear{1, 1.1, 1.4}, 1.5, 1.25 / 1.05},
		{"by year, later", ByYear{1, 1.1, 1.4}, 30, 1.4 / 1.05},
		{"steps, before", Steps{{2, 1.1}, {5, 0.9}}, 1.999, 1},
		{"steps, on the day", Steps{{2, 1.1}, {5, 0.9}}, 2, 1.1},
		{"steps, between", Steps{{2, 1.1}, {5, 0.9}}, 4.999, 1.1},
		{"steps, after", Steps{{2, 1.1}, {5, 0.9}}, 50, 0.9},
		{"steps, two in the first year", Steps{{0.25, 1.2}, {0.75, 2}}, 0.5, 1.2 / (0.25 + 0.5*1.2 + 0.25*2)},
		{"lines, between", people, 1.5, 20750.0 / 20250},
		{"lines, in the second piece", people, 8, 25750.0 / 20250},
		{"lines, after", people, 50, 30000.0 / 20250},
		// From 1 to 2 in a quarter of a year, back to 1 at its end.
		{"lines that bend in the first year", Lines{{0, 1}, {0.25, 2}, {1, 1}}, 0.25, 2 / 1.5},
		{"later", Later{Compound{0.02}, 5}, 3, math.Pow(1.02, 8) / compound},
		{"later, in its warm-up", Later{Compound{0.02}, 5}, -1, math.Pow(1.02, 4) / compound},
		{"later, before all", Later{Compound{0.02}, 5}, -9, 1 / compound},
	} {
		if got := c.growth.Factor(c.at); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: factor %.15g at %g years, want %.15g", c.name, got, c.at, c.want)
		}
	}
}

// Growth that is faster by a rate is the compound growth of both rates, and from
// year to year that much more than the growth it is built on. The first year's mean
// is a sum over its days, so that it agrees with the integral to a few millionths.
func TestFasterGrowth(t *testing.T) {
	both := Compound{1.02*1.01 - 1}
	fast := NewFaster(Compound{0.02}, 0.01)
	for _, at := range []float64{-2, 0, 0.5, 3, 20} {
		if got, want := fast.Factor(at), both.Factor(at); math.Abs(got/want-1) > 1e-5 {
			t.Errorf("factor %.9g at %g years, want %.9g", got, at, want)
		}
	}
	for _, c := range []struct {
		of   Growth
		rate float64
	}{{Linear{0.02}, 0.01}, {Lines{{-1, 3}, {0.5, 4}, {9, 5}}, -0.02}, {Later{Steps{{3, 1.2}}, 2}, 0.03}} {
		g := NewFaster(c.of, c.rate)
		got := g.Factor(4) / g.Factor(2) / (c.of.Factor(4) / c.of.Factor(2))
		if want := math.Pow(1+c.rate, 2); math.Abs(got-want) > 1e-12 {
			t.Errorf("%#v: %.15g times the growth from 2 to 4 years, want %.15g", g, got, want)
		}
	}
}

// The first year's logistic growth begins at Rate·(1 − 1/Ceiling) of production: the
// slope at the start, by differences.
func TestLogisticBeginsAtItsRate(t *testing.T) {
	g := Logistic{Ceiling: 1.8, Rate: 0.06}
	const h = 1e-6
	if slope, want := (g.Factor(h)/g.Factor(0)-1)/h, 0.06*(1-1/1.8); math.Abs(slope-want) > 1e-6 {
		t.Errorf("slope %g at the start, want %g", slope, want)
	}
}

// growths draws growth of every form, as the file admits it.
func growths(t *rapid.T) Growth {
	rate := rapid.Float64Range(-0.2, 0.3).Draw(t, "rate")
	values := rapid.SliceOfN(rapid.Float64Range(0.01, 100), 1, 6).Draw(t, "values")
	first := rapid.Float64Range(0.01, 3).Draw(t, "first point")
	steps, lines := make(Steps, len(values)), make(Lines, len(values))
	for i, v := range values {
		steps[i], lines[i] = Point{first + 0.4*float64(i), v}, Point{first + 0.7*float64(i) - 2, v}
	}
	return rapid.SampledFrom([]Growth{Compound{rate}, Linear{rate}, Logistic{values[0], 0.7 + rate},
		append(ByYear{1}, values...), steps, lines}).Draw(t, "form")
}

// In every form the mean of the first year is 1, so that the base is the mean that
// it is said to be: a midpoint sum over 2,000 pieces. A faster rate leaves it so.
// Before the start the factor is that of the
// start, and it is never negative.
func TestGrowthIsOneInTheFirstYear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		form := growths(t)
		faster := NewFaster(form, rapid.Float64Range(-0.1, 0.1).Draw(t, "faster"))
		before, after := rapid.Float64Range(-50, 0).Draw(t, "before"), rapid.Float64Range(0, 100).Draw(t, "after")
		for _, g := range []Growth{form, faster} {
			const pieces = 2000
			sum, most := 0.0, 0.0
			for i := range pieces {
				factor := g.Factor((float64(i) + 0.5) / pieces)
				sum, most = sum+factor, max(most, factor)
			}
			// A sum over days sees a jump up to half a day early or late.
			if mean := sum / pieces; math.Abs(mean-1) > most/600 {
				t.Fatalf("%#v: mean %.9g in the first year", g, mean)
			}
		}
		if got, want := faster.Factor(before), faster.Factor(0); got != want {
			t.Fatalf("%#v: factor %g at %g years, %g at the start", faster, got, before, want)
		}
		if got := faster.Factor(after); !(got >= 0) || math.IsInf(got, 0) {
			t.Fatalf("%#v: factor %g at %g years", faster, got, after)
		}
	})
}

// A plant takes in during its first year what its base says, in every form of
// growth: the cake of 365 days without noise, seasons or pulses. The days are taken
// at noon in years of 365.25 days, so that a rate of 10 % leaves 0.003 %.
func TestFirstYearBringsItsBase(t *testing.T) {
	for name, g := range map[string]Growth{
		"none": Compound{}, "compound": Compound{0.1}, "shrinking": Compound{-0.1}, "linear": Linear{0.1},
		"logistic": Logistic{1.8, 0.2}, "by year": ByYear{1, 1.1, 0.9}, "steps": Steps{{YearsBetween(model().Start, model().Start.AddDays(100)), 1.3}},
		"population": Lines{{-3, 9000}, {0.4, 9900}, {5, 20000}}, "drawn rate": NewFaster(Linear{0.05}, 0.04),
		"drawn rate on steps": NewFaster(Steps{{YearsBetween(model().Start, model().Start.AddDays(200)), 0.8}}, -0.05),
	} {
		m := model()
		m.Years, m.WarmUp = 1, 0
		m.Feed.Growth = g
		days := float64(m.Start.DaysUntil(m.Start.AddYears(1)))
		fed := total(mustRun(t, m, random.Key{Seed: 1}), func(m *Month) float64 { return m.Feed.Dry }) / days
		if math.Abs(fed/m.Feed.Base-1) > 1e-4 {
			t.Errorf("%s: %.4f kg dry a day in the first year, the base is %.4f", name, fed, m.Feed.Base)
		}
	}
}

// Years are counted as the feed counts them: four calendar years with a leap day
// are exactly four.
func TestYearsBetween(t *testing.T) {
	from := calendar.Date{Year: 2027, Month: 3, Day: 1}
	for years, to := range map[float64]calendar.Date{4: from.AddYears(4), -4: from.AddYears(-4), 0: from, 365 / 365.25: {Year: 2028, Month: 2, Day: 29}} {
		if got := YearsBetween(from, to); got != years {
			t.Errorf("%g years from %v to %v, want %g", got, from, to, years)
		}
	}
}
