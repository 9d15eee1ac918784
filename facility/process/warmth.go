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
		r.warm.rate, r.warm.slope = r.curve(t)
	}
}

// curve is TemperatureCurve.At with the logarithms kept, and its relative slope,
// 1/K.
func (r *run) curve(t float64) (rate, slope float64) {
	c := &r.m.Kinetics.Curve
	if r.unit > 0 {
		if t <= c.Cardinal.Least || t >= c.Cardinal.Most {
			return 0, 0
		}
		return c.Cardinal.At(t) / r.unit, c.Cardinal.slope(t)
	}
	rise, fall := math.Exp((t-c.Reference)*r.riseLog), math.Exp((t-c.Cutoff)*r.fallLog)
	if rise <= fall {
		return 0, 0
	}
	return rise - fall, (rise*r.riseLog - fall*r.fallLog) / (rise - fall)
}
