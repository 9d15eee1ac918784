package cycleplan

import (
	"math"

	"loamcast/facility/material"
	"loamcast/facility/process"
)

// stage sums up one course of a load in which there is some cake, and takes that along.
func stage(c *process.Course, cake *material.Solids, chemistry *material.Chemistry) Stage {
	end := c.Final()
	dry := c.Initial.Dry()
	s := Stage{
		DryIn: dry, DryLoss: dry - end.Parcel.Dry(),
		Volatile: Destruction{c.Initial.Volatile(), end.Exchange.Volatile},
		Cake:     Destruction{In: cake.Volatile()},
		Vapour:   end.Exchange.Vapour, Condensate: end.Condensate,
		Leachate: end.Exchange.Leachate, Ammonia: end.Exchange.NH3,
		Air: end.Air, AirMean: c.MeanFlow(), AirPeak: c.PeakFlow(),
		MeanPerDry: c.MeanFlow() / dry * 1000, PeakPerDry: c.PeakFlow() / dry * 1000,
		Blower: end.Blower, PeakTemperature: c.PeakTemperature(), LeastOxygen: math.Inf(1),
		Energy: c.Energy,
	}
	s.Cake.Lost = cake.DecayAs(&c.Initial.Fine, &end.Parcel.Fine, chemistry)
	for _, x := range c.Samples {
		s.LeastOxygen = min(s.LeastOxygen, x.Oxygen)
	}
	if g := c.Energy.Generated; g > 0 {
		s.EnergyResidual = math.Abs(c.Energy.Residual()) / g
	}
	s.MassResidual, s.MassResidualIsWorst = massResidual(c.Initial, end.Parcel, end.Exchange)
	return s
}

// massResidual returns the largest part of a component that went in and is
// neither there nor accounted for as exchange with the air or leachate.
func massResidual(before, after material.Parcel, e material.Exchange) (worst float64, name string) {
	in, out := before.Components(), after.Components()
	for _, c := range []struct {
		name                    string
		in, out, gained, parted float64
	}{
		{"total", in.Total, out.Total, e.O2, e.CO2 + e.NH3 + e.Vapour + e.Leachate},
		{"water", in.Water, out.Water, e.Water, e.Vapour + e.Leachate},
		{"carbon", in.Carbon, out.Carbon, 0, e.CO2 * material.CarbonPerCO2},
		{"nitrogen", in.Nitrogen, out.Nitrogen, 0, e.NH3 * material.NitrogenPerNH3},
	} {
		if off := math.Abs(c.in+c.gained-c.parted-c.out) / c.in; off >= worst {
			worst, name = off, c.name
		}
	}
	return worst, name
}
