package simulate_test

// withStructure gives the small file all keys of how loads hold air, few chips and a
// criterion that hardly counts, so that air reaches a part of each load that moves with
// every key.
var withStructure = []string{
	"  chips_to_cake: 2.5", "  chips_to_cake: 2.1",
	"structure: {account: all air}", `structure:
  vessel_depth: 2 m
  pad_depth: 2 m
  chip_voids: 60 %
  skeleton_stiffness: 1.2 m
  fines_stiffness: 0.3 m
  half_reached_at: 13 %
  reach_spread: 3 %
  least_reached: 1 %`,
}

// structures are the keys of how loads hold air. Where it reaches less of a load, less
// is oxidised.
var structures = []option{
	{key: "structure.account", old: "account: all air", new: "account: between particles", moves: down(oxidised)},
	{key: "structure.vessel_depth", old: "vessel_depth: 2 m", new: "vessel_depth: 2.6 m", moves: down(oxidised), base: withStructure},
	{key: "structure.pad_depth", old: "pad_depth: 2 m", new: "pad_depth: 3 m", base: withStructure},
	{key: "structure.chip_voids", old: "chip_voids: 60 %", new: "chip_voids: 55 %", base: withStructure},
	{key: "structure.skeleton_stiffness", old: "skeleton_stiffness: 1.2 m", new: "skeleton_stiffness: 3 m", moves: up(oxidised), base: withStructure},
	{key: "structure.fines_stiffness", old: "fines_stiffness: 0.3 m", new: "fines_stiffness: 1 m", moves: up(oxidised), base: withStructure},
	{key: "structure.half_reached_at", old: "half_reached_at: 13 %", new: "half_reached_at: 18 %", moves: down(oxidised), base: withStructure},
	{key: "structure.reach_spread", old: "reach_spread: 3 %", new: "reach_spread: 1 %", base: withStructure},
	{key: "structure.least_reached", old: "least_reached: 1 %", new: "least_reached: 99.9 %", moves: up(failed), base: withStructure},
}
