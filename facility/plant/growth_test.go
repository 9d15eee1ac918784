package plant

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"loamcast/sim/calendar"
)

// Each form of growth has the factors that its equation gives by hand.
func TestGrowthFactors(t *testing.T) {
	people := Lines{{-2, 19000}, {3, 21500}, {13, 30000}} // 20,000 at the start
	for _, c := range []struct {
		name   string
		growth Growth
		at     float64
		want   float64
	}{
		{"compound", Compound{0.02}, 3, 1.061208},
		{"linear", Linear{0.02}, 3, 1.06},
		{"linear, shrunk to nothing", Linear{-0.2}, 8, 0},
		// 1.8 / (1 + 0.8·e^−0.6) = 1.8 / (1 + 0.8·0.548811636094)
		{"logistic", Logistic{1.8, 0.06}, 10, 1.8 / (1 + 0.8*0.5488116360940264)},
		{"logistic, before the start", Logistic{1.8, 0.06}, -3, 1},
		{"logistic, at last", Logistic{1.8, 0.06}, 1000, 1.8},
		{"logistic, downwards", Logistic{0.5, 0.06}, 1000, 0.5},
		{"by year", ByYear{1, 1.1, 1.4}, 1.5, 1.25},
		{"by year, later", ByYear{1, 1.1, 1.4}, 30, 1.4},
		{"steps, before", Steps{{2, 1.1}, {5, 0.9}}, 1.999, 1},
		{"steps, on the day", Steps{{2, 1.1}, {5, 0.9}}, 2, 1.1},
		{"steps, between", Steps{{2, 1.1}, {5, 0.9}}, 4.999, 1.1},
		{"steps, after", Steps{{2, 1.1}, {5, 0.9}}, 50, 0.9},
		{"lines, between", people, 1.5, 20750.0 / 20000},
		{"lines, in the second piece", people, 8, 25750.0 / 20000},
		{"lines, after", people, 50, 1.5},
		{"later", Later{Compound{0.02}, 5}, 3, math.Pow(1.02, 8)},
		{"later, in its warm-up", Later{Compound{0.02}, 5}, -1, math.Pow(1.02, 4)},
		{"later, before all", Later{Compound{0.02}, 5}, -9, 1},
		{"faster", Faster{Linear{0.02}, 0.01}, 3, 1.06 * 1.030301},
		{"slower", Faster{Compound{0.02}, -0.01}, 2, 1.0404 * 0.9801},
		{"faster and later", Later{Faster{Compound{0.02}, 0.01}, 4}, -1, math.Pow(1.02*1.01, 3)},
	} {
		if got := c.growth.Factor(c.at); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s: factor %.15g at %g years, want %.15g", c.name, got, c.at, c.want)
		}
	}
}

// The first year's logistic growth is near Rate·(1 − 1/Ceiling): the slope at
// the start, by differences.
func TestLogisticBeginsAtItsRate(t *testing.T) {
	g := Logistic{Ceiling: 1.8, Rate: 0.06}
	const h = 1e-6
	if slope, want := (g.Factor(h)-1)/h, 0.06*(1-1/1.8); math.Abs(slope-want) > 1e-6 {
		t.Errorf("slope %g at the start, want %g", slope, want)
	}
}

// Every form is 1 at the start and before it, and never negative.
func TestGrowthStartsAtOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(-0.2, 0.2).Draw(t, "rate")
		values := rapid.SliceOfN(rapid.Float64Range(0.01, 100), 1, 6).Draw(t, "values")
		steps, lines := make(Steps, len(values)), make(Lines, len(values))
		for i, v := range values {
			steps[i], lines[i] = Point{float64(3*i + 1), v}, Point{float64(3*i - 4), v}
		}
		form := rapid.SampledFrom([]Growth{Compound{rate}, Linear{rate}, Logistic{values[0], 0.2 + rate},
			append(ByYear{1}, values...), steps, lines}).Draw(t, "form")
		g := Faster{Growth: form, Rate: rate}
		before, after := rapid.Float64Range(-50, 0).Draw(t, "before"), rapid.Float64Range(0, 100).Draw(t, "after")
		if got := g.Factor(before); math.Abs(got-1) > 1e-12 {
			t.Fatalf("%#v: factor %g at %g years", g, got, before)
		}
		if got := g.Factor(after); !(got >= 0) || math.IsInf(got, 0) {
			t.Fatalf("%#v: factor %g at %g years", g, got, after)
		}
	})
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
