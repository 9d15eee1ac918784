package process

import (
	"math"
	"testing"
)

// within reports whether got is want to the given relative tolerance.
func within(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// TestRateByTemperature shows the temperature curve against values derived from
// its equation (Haug 1993, equation from memory), and that it vanishes near
// 80.2 °C and peaks near 71.6 °C.
func TestRateByTemperature(t *testing.T) {
	c := DefaultKinetics().Curve
	for _, row := range []struct{ temperature, want float64 }{
		{20, 1.000}, {30, 1.892}, {40, 3.568}, {50, 6.655}, {55, 8.979},
		{60, 11.891}, {65, 15.151}, {70, 17.699},
	} {
		if got := c.At(row.temperature); !within(got, row.want, 1e-3) {
			t.Errorf("%g °C: %.4f, want %.3f", row.temperature, got, row.want)
		}
	}
	if v := c.Vanishes(); !within(v, 80.2, 1e-3) {
		t.Errorf("vanishes at %.2f °C, want 80.2", v)
	}
	if p := c.Peak(); !within(p, 71.6, 1e-3) {
		t.Errorf("peaks at %.2f °C, want 71.6", p)
	}
	for _, above := range []float64{c.Vanishes(), 85, 100} {
		if got := c.At(above); got > 1e-9 {
			t.Errorf("rate %g at %g °C, want none", got, above)
		}
	}
}

// TestRateFactors shows the moisture, free-air-space and oxygen factors against
// values derived from their equations (Haug 1993, equations from memory).
func TestRateFactors(t *testing.T) {
	k := DefaultKinetics()
	for _, row := range []struct {
		name      string
		factor    func(float64) float64
		x, want   float64
		tolerance float64
	}{
		{"solids", func(s float64) float64 { return k.Moisture(1 - s) }, 0.3, 0.995, 1e-3},
		{"solids", func(s float64) float64 { return k.Moisture(1 - s) }, 0.4, 0.972, 1e-3},
		{"solids", func(s float64) float64 { return k.Moisture(1 - s) }, 0.5, 0.856, 1e-3},
		{"solids", func(s float64) float64 { return k.Moisture(1 - s) }, 0.6, 0.503, 2e-3},
		{"solids", func(s float64) float64 { return k.Moisture(1 - s) }, 0.7, 0.147, 5e-3},
		{"free air space", k.FreeAirSpace, 0.10, 0.245, 3e-3},
		{"free air space", k.FreeAirSpace, 0.15, 0.514, 2e-3},
		{"free air space", k.FreeAirSpace, 0.20, 0.776, 1e-3},
		{"free air space", k.FreeAirSpace, 0.30, 0.974, 1e-3},
		{"oxygen", k.Oxygen, 1, 0.333, 2e-3},
		{"oxygen", k.Oxygen, 5, 0.714, 1e-3},
		{"oxygen", k.Oxygen, 10, 0.833, 1e-3},
		{"oxygen", k.Oxygen, 20, 0.909, 1e-3},
		{"oxygen", k.Oxygen, 0, 0, 0},
	} {
		if got := row.factor(row.x); !within(got, row.want, row.tolerance) {
			t.Errorf("%s %g: %.4f, want %.3f", row.name, row.x, got, row.want)
		}
	}
}

// TestUptakeRate shows that the respiration rate is what the rate law says for
// a load of one class: 1 kg readily degradable of 2 kg volatile solids at 20 °C
// takes up k20·O2/2 per day.
func TestUptakeRate(t *testing.T) {
	k, m := DefaultKinetics(), DefaultVesselModel()
	p := standardLoad()
	p.Fine.Readily, p.Fine.Slowly, p.Fine.Refractory = 1, 0, 1
	p.Coarse.Readily, p.Coarse.Slowly, p.Coarse.Refractory = 0, 0, 0
	want := k.Readily * k.Curve.At(20) * m.Chemistry.Readily.O2 / 2 * 1000 / 24
	if got := uptakeRate(k, p, m.Chemistry, 20); !within(got, want, 1e-12) {
		t.Errorf("uptake %.4f mg/(g·h), want %.4f", got, want)
	}
}

// TestDefaultRateAgainstPublished shows that the rate of 0.196/d which Kulikowska
// (2016, read) fitted to composting biosolids mixes is the default rate of the
// readily degradable class at a temperature of vigorous composting, 50–60 °C.
func TestDefaultRateAgainstPublished(t *testing.T) {
	k := DefaultKinetics()
	if low, high := k.Readily*k.Curve.At(50), k.Readily*k.Curve.At(60); !(low < 0.196 && 0.196 < high) {
		t.Errorf("rates from 50 to 60 °C are %.3f to %.3f/d, which leaves out 0.196", low, high)
	}
}
