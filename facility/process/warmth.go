package process

import (
	"math"

	"loamcast/facility/moistair"
)

// warmth is what depends on temperature alone and takes exponentials to find.
type warmth struct {
	temperature float64 // °C
	rate, slope float64 // of the temperature curve, and its relative slope, 1/K
	saturation  float64 // pressure of water vapour, Pa
}

// warmTo finds the terms at t °C. While air holds a load they are those of the step
// before.
func (r *run) warmTo(t float64) {
	const same = 1e-9 // K
	if math.Abs(t-r.warm.temperature) > same || r.warm.saturation == 0 {
		r.warm = warmth{temperature: t, saturation: moistair.SaturationPressure(t)}
		r.warm.rate, r.warm.slope = r.curve.about(t)
	}
}

// curve is a TemperatureCurve, for who asks it often, with what is the same at all
// temperatures kept.
type curve struct {
	TemperatureCurve
	riseLog, fallLog float64 // logarithms of its bases
	unit             float64 // of a cardinal curve: γ at its reference, 0 if another holds
}

func (c TemperatureCurve) kept() curve {
	if c.Cardinal.none() {
		return curve{TemperatureCurve: c, riseLog: math.Log(c.Rise), fallLog: math.Log(c.Fall)}
	}
	return curve{TemperatureCurve: c, unit: c.Cardinal.At(c.Reference)}
}

// at is TemperatureCurve.At.
func (c *curve) at(t float64) float64 {
	if c.unit > 0 {
		return c.Cardinal.At(t) / c.unit
	}
	return max(0, math.Exp((t-c.Reference)*c.riseLog)-math.Exp((t-c.Cutoff)*c.fallLog))
}

// about is at, and the relative slope there, 1/K.
func (c *curve) about(t float64) (rate, slope float64) {
	if c.unit > 0 {
		if t <= c.Cardinal.Least || t >= c.Cardinal.Most {
			return 0, 0
		}
		return c.Cardinal.At(t) / c.unit, c.Cardinal.slope(t)
	}
	rise, fall := math.Exp((t-c.Reference)*c.riseLog), math.Exp((t-c.Cutoff)*c.fallLog)
	if rise <= fall {
		return 0, 0
	}
	return rise - fall, (rise*c.riseLog - fall*c.fallLog) / (rise - fall)
}
