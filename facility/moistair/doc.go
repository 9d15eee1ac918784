// Package moistair holds the psychrometric relations that a composting model
// needs: how much water a cubic metre of air carries away and with how much
// heat.
//
// It is not a psychrometric chart: wet-bulb and dew-point temperatures are left
// out because nothing here asks for them.
//
// Units: °C, Pa, kg of water per kg of dry air, kJ per kg of dry air, m3 per kg
// of dry air, kg/m3; relative humidity and water activity 0…1. Enthalpy is zero
// for dry air and for liquid water at 0 °C.
//
// Relations and constants follow the ASHRAE Handbook, Fundamentals, chapter
// "Psychrometrics" (from memory; checked to 0.2 % against an independent
// library, see testdata/moistair): saturation pressure after Hyland and Wexler
// (1983), moist air as a mixture of ideal gases, the standard atmosphere.
package moistair
