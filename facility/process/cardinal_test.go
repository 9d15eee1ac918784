package process

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func drawCardinal(t *rapid.T) Cardinal {
	least := rapid.Float64Range(-20, 15).Draw(t, "least")
	best := rapid.Float64Range(least+15, 70).Draw(t, "best")
	most := best + rapid.Float64Range(0.05, 0.95).Draw(t, "most")*(best-least)
	return Cardinal{Least: least, Best: best, Most: most}
}

// Shows of the cardinal curve, whatever its temperatures, what Rosso et al. (1993)
// built it for (properties derived from the equation, which is from memory): nothing
// at the ends and outside, touching the axis at the lower one; 1 at the best, with a
// level tangent; rising before and falling after it, and never out of 0 to 1.
func TestCardinalCurve(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCardinal(t)
		if err := c.Validate((c.Least + c.Most) / 2); err != nil {
			t.Fatal(err)
		}
		for _, out := range []float64{c.Least, c.Most, c.Least - 5, c.Most + 5} {
			if got := c.At(out); got != 0 {
				t.Fatalf("%g at %g °C", got, out)
			}
		}
		if at := c.At(c.Best); math.Abs(at-1) > 1e-12 {
			t.Fatalf("%g at the best temperature", at)
		}
		const small = 1e-4
		if touch := c.At(c.Least+small) / small; touch > small {
			t.Fatalf("it leaves the axis at %g/K", touch)
		}
		if level := c.slope(c.Best); math.Abs(level) > 1e-9 {
			t.Fatalf("slope %g at the best temperature", level)
		}
		const n = 400
		before, rising := 0.0, true
		for i := 1; i < n; i++ {
			at := c.Least + (c.Most-c.Least)*float64(i)/n
			now := c.At(at)
			rising = at <= c.Best
			if now < 0 || now > 1+1e-12 || rising && now < before {
				t.Fatalf("%g at %g °C after %g", now, at, before)
			}
			if !rising && at-(c.Most-c.Least)/n >= c.Best && now > before {
				t.Fatalf("it rises again at %g °C", at)
			}
			before = now
		}
	})
}

// Shows that the slope by which steps are settled is that of the curve, against
// differences of it.
func TestCardinalSlope(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCardinal(t)
		at := c.Least + rapid.Float64Range(0.05, 0.95).Draw(t, "at")*(c.Most-c.Least)
		const h = 1e-4
		want := (c.At(at+h) - c.At(at-h)) / (2 * h) / c.At(at)
		if got := c.slope(at); math.Abs(got-want) > 1e-5*max(1, math.Abs(want)) {
			t.Fatalf("slope %g at %g °C of %+v, want %g", got, at, c, want)
		}
	})
}

// Shows the curve for composting beside the one that stays the default: both are 1 at
// the reference of the rate constants; with an optimum, activity falls above 60 °C,
// by more than a quarter up to 70 °C, where the other still rises.
func TestTemperatureCurves(t *testing.T) {
	haug, rosso := DefaultKinetics().Curve, LivelyKinetics().Curve
	for _, c := range []TemperatureCurve{haug, rosso} {
		if at := c.At(c.Reference); math.Abs(at-1) > 1e-3 {
			t.Errorf("%g at the reference", at)
		}
		if peak := c.Peak(); c.At(peak) < c.At(peak-0.5) || c.At(peak) < c.At(peak+0.5) || c.At(c.Vanishes()) != 0 && c.At(c.Vanishes()) > 1e-9 {
			t.Errorf("%+v: not at its best at %g °C, or not gone at %g °C", c, peak, c.Vanishes())
		}
	}
	if at60, at70 := rosso.At(60), rosso.At(70); !(rosso.Peak() >= 45 && rosso.Peak() <= 65 && at60 < rosso.At(57) && at70 < 0.75*at60) {
		t.Errorf("with an optimum: %g at 60 °C, %g at 70 °C, best at %g °C", at60, at70, rosso.Peak())
	}
	if haug.At(70) < haug.At(60) {
		t.Error("the default has come to fall above 60 °C")
	}
}

// Shows that curves without an optimum between their ends are refused.
func TestCardinalRefuses(t *testing.T) {
	for _, c := range []Cardinal{{10, 5, 70}, {5, 72, 70}, {5, 37, 70}, {25, 57, 70}, {math.NaN(), 57, 78}} {
		k := LivelyKinetics()
		k.Curve.Cardinal = c
		if k.Validate() == nil {
			t.Errorf("%+v is taken", c)
		}
	}
}
