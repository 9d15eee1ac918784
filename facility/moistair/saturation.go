package moistair

import "math"

const (
	zeroCelsius = 273.15 // K
	triplePoint = 0.01   // °C; below it the saturated phase is ice
)

// SaturationPressure returns the pressure of water vapour in equilibrium with
// liquid water, or with ice below the triple point, Pa. t is in °C.
//
// Hyland and Wexler's equations hold from −100 to 200 °C:
//
//	ln p = c1/T + c2 + c3·T + c4·T² + c5·T³ (+ c6·T⁴ over ice) + c7·ln T,  T in K
//
// Outside that range the result is an extrapolation.
func SaturationPressure(t float64) float64 {
	k := t + zeroCelsius
	if t < triplePoint {
		return math.Exp(-5.6745359e3/k + 6.3925247 + 4.1635019*math.Log(k) +
			k*(-9.677843e-3+k*(6.2215701e-7+k*(2.0747825e-9+k*-9.484024e-13))))
	}
	return math.Exp(-5.8002206e3/k + 1.3914993 + 6.5459673*math.Log(k) +
		k*(-4.8640239e-2+k*(4.1764768e-5+k*-1.4452093e-8)))
}
