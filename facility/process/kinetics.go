package process

import (
	"errors"
	"fmt"
	"math"
)

// Kinetics holds the rate laws. A class of m kg decays at
//
//	−dm/dt = m · k20 · (1, or CoarseFactor for coarse matter)
//	           · Temperature(T) · Moisture(s) · FreeAirSpace(ε) · Oxygen(c)
//
// with the class's k20 at 20 °C and no limitation.
type Kinetics struct {
	Readily, Slowly float64 // k20, 1/d
	Rapidly         float64 // k20, 1/d; matters where a load has such matter
	Awakening       Awakening
	CoarseFactor    float64 // rate of coarse matter relative to fine, 0…1
	Curve           TemperatureCurve
	Dryness         Logistic // of the moisture
	Airways         Logistic // of the free air space
	HalfOxygen      float64  // % by volume at which the rate halves
}

// TemperatureCurve is the rate at T °C relative to Reference:
//
//	Rise^(T−Reference) − Fall^(T−Cutoff), never below zero
//
// or, with Cardinal, γ(T)/γ(Reference).
type TemperatureCurve struct {
	Rise, Fall        float64
	Reference, Cutoff float64  // °C
	Cardinal          Cardinal // in place of rise and fall, zero if these hold
}

// Logistic is 1/(exp(Offset − Slope·x) + 1).
type Logistic struct{ Slope, Offset float64 }

// At returns the logistic at x.
func (l Logistic) At(x float64) float64 { return 1 / (math.Exp(l.Offset-l.Slope*x) + 1) }

// At returns the relative rate at t °C.
func (c TemperatureCurve) At(t float64) float64 {
	k := c.kept()
	return k.at(t)
}

// Vanishes returns the temperature, °C, at and above which nothing decays.
func (c TemperatureCurve) Vanishes() float64 {
	if !c.Cardinal.none() {
		return c.Cardinal.Most
	}
	rise, fall := math.Log(c.Rise), math.Log(c.Fall)
	return (c.Cutoff*fall - c.Reference*rise) / (fall - rise)
}

// Peak returns the temperature of the fastest rate, °C.
func (c TemperatureCurve) Peak() float64 {
	if !c.Cardinal.none() {
		return c.Cardinal.Best
	}
	rise, fall := math.Log(c.Rise), math.Log(c.Fall)
	return c.Vanishes() - math.Log(fall/rise)/(fall-rise)
}

// DefaultKinetics returns the forms of Haug (1993, from memory; see the package
// comment) with rate constants for biosolids and wood chips. The readily
// degradable class has 0.020/d at 20 °C, which is the 0.196/d that Kulikowska
// (2016, read) fitted to composting biosolids mixes, carried back from 57 °C; the
// temperature of that fit is an assumption. The rates of the slowly degradable
// class and of coarse matter are assumptions, set so that a standard load loses
// 10–20 % of its dry mass in 18 days. The rate of the rapidly degradable class is that
// of LivelyKinetics.
func DefaultKinetics() Kinetics {
	return Kinetics{
		Rapidly:      0.38,
		Readily:      0.020,
		Slowly:       0.0010,
		CoarseFactor: 0.25,
		Curve:        TemperatureCurve{Rise: 1.066, Fall: 1.21, Reference: 20, Cutoff: 60},
		Dryness:      Logistic{Slope: 17.684, Offset: 7.0622},
		Airways:      Logistic{Slope: 23.675, Offset: 3.4945},
		HalfOxygen:   2,
	}
}

// LivelyKinetics returns rates for cake of which a part degrades within days (about
// 12 % of its volatile solids, taken off what is readily degradable), with a curve
// that has its best temperature at 57 °C, and a load that has to come to life.
//
// At 57 °C the readily degradable class decays by the 0.196/d of Kulikowska (2016,
// read); what is rapidly degradable brings fresh cake to the 12.1 mg O2 per g of
// volatile solids and hour that Zhao et al. report at 35 °C (2011, Water Res. 45:2322,
// from an abstract), fully active; what is left after it takes up about the 5.68 of
// the same source at 50 °C. The slowly degradable class keeps its proportion to the
// readily degradable one. First and Rate of Awakening are set so that standard mixes
// pass 55 °C after 2 days in summer and 5 in winter, the bounds of what raw cake mixes do
// (common practice, no source; a pilot was hotter within 2 days in winter, Lu 2020, so
// that this is on the slow side).
func LivelyKinetics() Kinetics {
	k := DefaultKinetics()
	k.Rapidly, k.Readily, k.Slowly = 0.38, 0.056, 0.0028
	k.Curve.Cardinal = DefaultCardinal()
	k.Awakening = Awakening{First: 0.004, Rate: 3}
	return k
}

// Moisture returns the moisture factor at water fraction w of the wet mass.
func (k Kinetics) Moisture(w float64) float64 { return k.Dryness.At(w) }

// FreeAirSpace returns the factor at an air-filled fraction of the volume.
func (k Kinetics) FreeAirSpace(f float64) float64 { return k.Airways.At(f) }

// Oxygen returns the factor at c % oxygen by volume of dry air in the pores.
func (k Kinetics) Oxygen(c float64) float64 {
	if c <= 0 {
		return 0
	}
	return c / (c + k.HalfOxygen)
}

// constants returns k20 of the pools in the order of pools, 1/d.
func (k Kinetics) constants() pools {
	return pools{k.Readily, k.Slowly, k.Readily * k.CoarseFactor, k.Slowly * k.CoarseFactor,
		k.Rapidly, k.Rapidly * k.CoarseFactor}
}

// Validate reports the first impossible constant.
func (k Kinetics) Validate() error {
	if err := k.Awakening.validate(); err != nil {
		return err
	}
	if !k.Curve.Cardinal.none() {
		if err := k.Curve.Cardinal.Validate(k.Curve.Reference); err != nil {
			return err
		}
	}
	switch fastest := max(k.Readily, k.Slowly, k.Rapidly) * k.Curve.At(k.Curve.Peak()) / hoursPerDay; {
	case !(k.Readily > 0 && k.Slowly >= 0) || math.IsInf(k.Readily+k.Slowly, 0):
		return fmt.Errorf("kinetics: rate constants at 20 °C must be positive, got %g and %g per day", k.Readily, k.Slowly)
	case !(k.Rapidly >= 0) || math.IsInf(k.Rapidly, 0):
		return fmt.Errorf("kinetics: the rate of rapidly degradable matter must not be negative, got %g per day", k.Rapidly)
	case !(k.CoarseFactor >= 0 && k.CoarseFactor <= 1):
		return fmt.Errorf("kinetics: the factor of coarse matter %g is not between 0 and 1", k.CoarseFactor)
	case !(k.Curve.Rise > 1 && k.Curve.Fall > k.Curve.Rise && k.Curve.Cutoff > k.Curve.Reference):
		return errors.New("kinetics: the temperature curve must rise, then fall faster")
	case !(k.Dryness.Slope > 0 && k.Airways.Slope > 0):
		return errors.New("kinetics: moisture and free-air-space factors must rise")
	case !(k.HalfOxygen > 0):
		return fmt.Errorf("kinetics: half-rate oxygen %g %% must be positive", k.HalfOxygen)
	case fastest > 1:
		return errors.New("kinetics: a class that decays within the hour cannot be followed in steps of an hour")
	}
	return nil
}
