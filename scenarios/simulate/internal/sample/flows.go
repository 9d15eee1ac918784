package sample

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/simulate"
)

// flows is a year's mean, in kg, of a plant at steady state: what enters a
// store leaves it. The names are those of the facility's ledger.
func flows() []simulate.Flow {
	const ton = 1000
	solid := func(kind plant.Flow, name, from, to string, wet, dry float64) simulate.Flow {
		return simulate.Flow{
			Kind: kind, Name: name, From: from, To: to, Wet: wet * ton, Dry: dry * ton, Water: (wet - dry) * ton,
			Fixed: 0.25 * dry * ton, VolatileSolids: 0.75 * dry * ton, Carbon: 0.42 * dry * ton, Nitrogen: 0.03 * dry * ton,
		}
	}
	fluid := func(kind plant.Flow, name, from, to string, wet, carbon, nitrogen float64) simulate.Flow {
		return simulate.Flow{Kind: kind, Name: name, From: from, To: to, Wet: wet * ton, Water: (wet - carbon - nitrogen) * ton,
			Carbon: carbon * ton, Nitrogen: nitrogen * ton}
	}
	return []simulate.Flow{
		solid(plant.CakeProduced, "cake produced", "outside", "cake holding", 1800, 360),
		solid(plant.CakeDiverted, "cake diverted", "cake holding", "outside", 60, 12),
		solid(plant.ChipsDelivered, "chips delivered", "outside", "chips", 420, 270),
		solid(plant.CakeMixed, "cake mixed", "cake holding", "mixer", 1740, 348),
		solid(plant.ChipsMixed, "chips mixed", "chips", "mixer", 1400, 810),
		solid(plant.MixLoaded, "mix loaded", "mixer", "vessels", 3140, 1158),
		solid(plant.LoadUnloaded, "compost unloaded", "vessels", "curing pad", 2040, 1010),
		solid(plant.LoadFailed, "failed loads hauled away", "vessels", "outside", 14, 6),
		solid(plant.LotScreened, "cured mix screened", "curing pad", "screen", 1732, 965),
		solid(plant.ProductScreened, "product screened", "screen", "product store", 722, 410),
		solid(plant.ChipsRecovered, "chips recovered", "screen", "chips", 980, 540),
		solid(plant.Rejects, "rejects", "screen", "outside", 30, 15),
		solid(plant.ProductTaken, "product taken", "product store", "outside", 717, 407),
		fluid(plant.OxygenTaken, "oxygen, vessels", "outside", "vessels", 185, 0, 0),
		{Kind: plant.MetabolicWater, Name: "metabolic water, vessels", From: "outside", To: "vessels", Water: 70 * ton},
		fluid(plant.CarbonDioxideGiven, "carbon dioxide, vessels", "vessels", "outside", 215, 59, 0),
		fluid(plant.AmmoniaGiven, "ammonia, vessels", "vessels", "outside", 6, 0, 5),
		fluid(plant.VapourGiven, "water vapour, vessels", "vessels", "outside", 1020, 0, 0),
		fluid(plant.LeachateGiven, "leachate, vessels", "vessels", "outside", 30, 0, 0),
		{Kind: plant.VolatilesOxidised, Name: "volatile solids oxidised, vessels", From: "vessels", To: "outside", Dry: 140 * ton, VolatileSolids: 140 * ton},
		fluid(plant.OxygenTaken, "oxygen, curing", "outside", "curing pad", 55, 0, 0),
		fluid(plant.CarbonDioxideGiven, "carbon dioxide, curing", "curing pad", "outside", 65, 18, 0),
		fluid(plant.AmmoniaGiven, "ammonia, curing", "curing pad", "outside", 1, 0, 0.8),
		fluid(plant.VapourGiven, "water vapour, curing", "curing pad", "outside", 289, 0, 0),
		fluid(plant.LeachateGiven, "leachate, curing", "curing pad", "outside", 8, 0, 0),
	}
}

func balance() simulate.Balance {
	return simulate.Balance{
		Worst: 3.1e-14, WorstAt: "curing pad, water", Bound: 1e-9,
		Components: []simulate.ComponentBalance{
			{Name: "water", In: 1_660_000, Out: 1_655_000, Change: 5_000, Residual: 2.1e-9},
			{Name: "fixed solids", In: 157_500, Out: 156_900, Change: 600, Residual: -1.4e-10},
			{Name: "volatile solids", In: 472_500, Out: 470_300, Change: 2_200, Residual: 5.5e-10},
			{Name: "carbon", In: 264_600, Out: 263_400, Change: 1_200, Residual: 3.2e-10},
			{Name: "nitrogen", In: 18_900, Out: 18_820, Change: 80, Residual: 0},
			{Name: "total", In: 2_460_000, Out: 2_453_000, Change: 7_000, Residual: -8.8e-10},
		},
	}
}
