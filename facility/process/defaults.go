package process

import "loamcast/facility/material"

// DefaultSite is a temperate valley: invented, not a place.
func DefaultSite() Site {
	return Site{
		Altitude:    180,
		Temperature: [12]float64{-3, -1, 4, 10, 16, 20, 23, 22, 17, 11, 5, -1},
		Humidity:    [12]float64{.75, .73, .69, .66, .67, .69, .70, .72, .74, .73, .75, .77},
	}
}

// DefaultVesselModel returns a sealed, insulated vessel of some 31 m3 on forced
// air. Assumptions, all to be replaced by a plant's own: outside surface of a box
// of 6.1 × 2.3 × 2.3 m; U of some 40 mm of foam; 5 % of the condensate runs back;
// fine matter holds 5.7 kg/kg, which is cake of 15 % solids, the thinnest of common
// practice; a blower share of 160 m3/h per dry tonne of a 20-short-ton load, within
// the 100–200 of common practice; 2.5 kPa for floor, ducts and biofilter; solids
// of 1.25 kJ/(kg·K). The heat of 14 kJ per g O2 is from memory. The program holds
// 60 °C for nine days and 52 °C to day 17.5 before it dries and cools.
func DefaultVesselModel() *Model {
	return &Model{
		Kinetics:     DefaultKinetics(),
		Chemistry:    material.DefaultChemistry(),
		Bulk:         material.DefaultBulk(),
		Heat:         HeatCapacity{Solids: 1.25},
		HeatOfOxygen: 14000,
		Enclosure: Enclosure{Name: "vessel", Area: 67, Conductance: 0.7,
			Exhaust: 1, Returned: 0.05, Holding: 5.7, Drainage: 24},
		Blower: Blower{Capacity: 1100, PressureDrop: 2500, Efficiency: 0.5, LeastOxygen: 10},
		Program: []Segment{
			{Name: "heat up and hold for pathogen reduction", Hours: 9 * hoursPerDay, Setpoint: 60, MinFlow: 2},
			{Name: "hold for vector attraction reduction", Hours: 8.5 * hoursPerDay, Setpoint: 52, MinFlow: 5},
			{Name: "dry and cool", Hours: 2.5 * hoursPerDay, Setpoint: 38, MinFlow: 25},
		},
		Loading:  Loading{Fine: 20, Chips: 2},
		Site:     DefaultSite(),
		Criteria: DefaultCriteria(),
		Limits:   DefaultLimits(),
		Step:     0.5,
	}
}

// DefaultCuringModel returns a section of a curing pile, some 2.5 m high, on
// gentle air that holds it at 50 °C. For a passive pile give Blower the natural
// draught, no pressure drop, and the segment no setpoint; fresh material in it
// then gets as hot as such piles do.
func DefaultCuringModel() *Model {
	m := DefaultVesselModel()
	m.Enclosure = Enclosure{Name: "curing pile", AreaPerVolume: 0.6, Conductance: 2,
		Exhaust: 1, Holding: 5.7, Drainage: 24}
	m.Blower = Blower{PerDry: 15, PressureDrop: 1000, Efficiency: 0.5, LeastOxygen: 10}
	m.Program = []Segment{{Name: "cure", Hours: 30 * hoursPerDay, Setpoint: 50, MinFlow: 1}}
	m.Loading = Loading{Fine: 35, Chips: 35}
	m.Step = 1
	return m
}
