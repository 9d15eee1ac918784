package process

import "errors"

// Limits are the thresholds outside which a load is suspect. They steer the
// diagnosis only; the rate laws act by themselves.
type Limits struct {
	FreeAirSpace float64 // least, of the volume
	Wet, Dry     float64 // highest and lowest moisture, of the wet mass
	// HeatPerWater is the least heat that the readily degradable matter can set
	// free per kg of water, kJ/kg.
	HeatPerWater float64
	Oxygen       float64 // least in the pores, % by volume
	Lost         float64 // most of the heat through the surface and as warm dry air, 0…1
}

// DefaultLimits takes 20 % free air space (Eftoda & McCartney: that needs about
// 1 : 2.5 by volume), at most 65 % moisture in vessels (environmental
// engineering handbook, table 7.55.1), at least 40 % (Cornell composting science
// pages: the rate falls strongly below 35–40 %) and 5 % oxygen (LSU AgCenter
// 3838-D). The heat limits are assumptions: 900 kJ/kg warms a wet mix by 45 °C
// three times over, half of what a standard mix has; where more than half of the heat is lost dry, little is
// left to evaporate water.
func DefaultLimits() Limits {
	return Limits{FreeAirSpace: 0.20, Wet: 0.65, Dry: 0.40, HeatPerWater: 900, Oxygen: 5, Lost: 0.5}
}

func (l Limits) validate() error {
	switch {
	case !(l.FreeAirSpace >= 0 && l.FreeAirSpace < 1):
		return errors.New("limits: free air space must be between 0 and 1")
	case !(l.Dry >= 0 && l.Dry < l.Wet && l.Wet < 1):
		return errors.New("limits: lowest and highest moisture must be in order between 0 and 1")
	case !(l.HeatPerWater >= 0 && l.Oxygen >= 0 && l.Oxygen < inletOxygen):
		return errors.New("limits: heat per water and oxygen must not be negative, oxygen below that of air")
	case !(l.Lost >= 0 && l.Lost <= 1):
		return errors.New("limits: the share of heat lost must be between 0 and 1")
	}
	return nil
}
