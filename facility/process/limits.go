package process

import "errors"

// Limits are the thresholds outside which a load is suspect. They steer the
// diagnosis only; the rate laws act by themselves.
type Limits struct {
	FreeAirSpace float64 // least, of the volume
	Wet, Dry     float64 // highest and lowest moisture, of the wet mass
	// HeatPerWater is the least heat that the degradable matter can set free
	// per kg of water, kJ/kg.
	HeatPerWater float64
	Oxygen       float64 // least in the pores, % by volume
}

// DefaultLimits takes 20 % free air space (Eftoda & McCartney: that needs about
// 1 : 2.5 by volume), at most 65 % moisture in vessels (environmental
// engineering handbook, table 7.55.1), at least 40 % (Cornell: the rate falls
// strongly below 35–40 %) and 5 % oxygen (LSU AgCenter 3838-D).
func DefaultLimits() Limits {
	return Limits{FreeAirSpace: 0.20, Wet: 0.65, Dry: 0.40, HeatPerWater: 2000, Oxygen: 5}
}

func (l Limits) validate() error {
	if !(l.FreeAirSpace >= 0 && l.FreeAirSpace < 1 && l.Dry >= 0 && l.Dry < l.Wet && l.Wet <= 1 && l.HeatPerWater >= 0 && l.Oxygen >= 0) {
		return errors.New("limits: free air space, moisture and oxygen limits must be fractions in order")
	}
	return nil
}
