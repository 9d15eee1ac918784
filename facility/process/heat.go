package process

import (
	"fmt"
	"math"

	"loamcast/facility/moistair"
)

// HeatCapacity gives the heat that matter stores.
type HeatCapacity struct {
	Solids float64 // kJ/(kg·K)
	// Fusion is the heat that water gives up in freezing, kJ/kg: FusionHeat, or 0
	// for water that does not freeze.
	Fusion float64
}

// Of returns the heat capacity of dry solids and water, kg each, kJ/K.
func (h HeatCapacity) Of(dry, water float64) float64 {
	return h.Solids*dry + moistair.WaterHeat*water
}

// Energy is the heat account of a load since its start, kJ. Stored is the
// change of its heat above that of water and solids at 0 °C, ice included; Carried is the sensible heat of the
// matter that left it (as vapour, leachate and gas) less that of the water
// formed in it.
type Energy struct {
	Generated float64 // by oxidation
	Stored    float64
	Wall      float64 // through the surface
	AirDry    float64 // sensible heat taken up by the air
	AirLatent float64 // heat of evaporation
	Carried   float64
	Handling  float64 // lost to the air when a pile was turned
}

// Plus returns the account of one course and another that goes on with it.
func (e Energy) Plus(next Energy) Energy {
	e.Generated += next.Generated
	e.Stored += next.Stored
	e.Wall += next.Wall
	e.AirDry += next.AirDry
	e.AirLatent += next.AirLatent
	e.Carried += next.Carried
	e.Handling += next.Handling
	return e
}

// Residual is what the account fails to explain, kJ.
func (e Energy) Residual() float64 {
	return e.Generated - e.Stored - e.Wall - e.AirDry - e.AirLatent - e.Carried - e.Handling
}

func (h HeatCapacity) validate() error {
	if !(h.Solids > 0) {
		return fmt.Errorf("heat capacity of solids %g kJ/(kg·K) must be positive", h.Solids)
	}
	if !(h.Fusion >= 0) || math.IsInf(h.Fusion, 0) {
		return fmt.Errorf("heat of freezing %g kJ/kg must not be negative", h.Fusion)
	}
	return nil
}
