package moistair

import "math"

// Specific heats and the heat of vaporisation at 0 °C used throughout.
const (
	DryAirHeat     = 1.006 // kJ/(kg·K)
	VapourHeat     = 1.86  // kJ/(kg·K)
	WaterHeat      = 4.186 // kJ/(kg·K)
	VaporisationAt = 2501  // kJ/kg at 0 °C
)

const (
	molarRatio  = 0.621945 // water to dry air
	gasConstant = 287.042  // J/(kg·K), dry air
	seaPressure = 101325   // Pa
	lapsePerM   = 2.25577e-5
	lapseExpo   = 5.2559
)

// StandardPressure returns the pressure of the standard atmosphere at an
// altitude in m, Pa. It holds from −5,000 to 11,000 m.
func StandardPressure(altitude float64) float64 {
	return seaPressure * math.Pow(1-lapsePerM*altitude, lapseExpo)
}

// HumidityRatio returns the water carried by air at t °C and relative humidity
// rh under a total pressure in Pa, kg per kg of dry air. At and above the
// boiling point there is no room for dry air and the result is +Inf.
func HumidityRatio(t, rh, pressure float64) float64 {
	return RatioOfVapour(rh*SaturationPressure(t), pressure)
}

// RatioOfVapour returns the same from the pressure of the vapour, Pa.
func RatioOfVapour(vapour, pressure float64) float64 {
	if vapour >= pressure {
		return math.Inf(1)
	}
	return molarRatio * vapour / (pressure - vapour)
}

// Vaporisation returns the heat that turns liquid water at t °C into vapour at
// t °C, kJ/kg.
func Vaporisation(t float64) float64 {
	return VaporisationAt + (VapourHeat-WaterHeat)*t
}

// SpecificVolume returns the volume of moist air per kg of dry air, m3/kg.
func SpecificVolume(t, w, pressure float64) float64 {
	return gasConstant * (t + zeroCelsius) * (1 + w/molarRatio) / pressure
}
