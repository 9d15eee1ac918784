package facilityfile

import (
	"slices"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
)

// structure is what the file says of how loads hold air, and how far air comes
// into them.
type structure struct {
	everywhere      bool    // all air counts, nothing settles and air reaches all
	vessel, pad     float64 // depths, m
	voids           float64
	skeleton, fines float64 // Pa
	path            process.AirPath
	least           float64 // share of a load
}

// deepest, m, is more than any vessel, and leastHead, mostHead the stiffnesses of
// a froth and of rock, m of water.
const (
	deepest             = 20
	leastHead, mostHead = 0.01, 1000
)

// The accounts of air, as the file says them.
const (
	betweenParticles = "between particles"
	allAir           = "all air"
)

var airAccountRows = []row[structure]{
	{Key{Path: "account", Words: "which air counts: that between the particles of a settled load, as far as it comes; or all, inside chips as well, in a load that does not settle and that air reaches throughout",
		Choices: []string{betweenParticles, allAir}, Default: elseAs(betweenParticles, assumption)},
		chosen(func(s *structure, word string) { s.everywhere = word == allAir })},
}

// defaultPadDepth is that of the built-in piles.
const defaultPadDepth = 2.5

const fittedToFreeAir = "assumption, fitted to 20 % free air at 1:2.5, Eftoda & McCartney, read"

var structureRows = []row[structure]{
	{Key{Path: "vessel_depth", Words: "of the mix in a full vessel, under which it settles", Dimension: units.Length, Low: 0, High: deepest,
		Default: orElse(material.DefaultDepth, assumption), Example: "6 ft"},
		number(func(s *structure) *float64 { return &s.vessel })},
	{Key{Path: "pad_depth", Words: "of what cures, under which it settles", Dimension: units.Length, Low: 0, High: deepest, Default: orElse(defaultPadDepth, assumption)},
		number(func(s *structure) *float64 { return &s.pad })},
	{Key{Path: "chip_voids", Words: "part of a heap of chips that is between them", Dimension: units.Fraction, Low: 0.2, High: 0.9,
		Default: orElse(material.DefaultBulk().CoarseVoids, assumption)},
		number(func(s *structure) *float64 { return &s.voids })},
	{Key{Path: "skeleton_stiffness", Words: "pressure, as a head of water, at which the air between touching chips has fallen to 37 %", Dimension: units.Length, Low: leastHead, High: mostHead,
		Default: orElse(material.DefaultSkeleton/material.MetreOfWater, fittedToFreeAir)},
		scaled(material.MetreOfWater, 1, func(s *structure) *float64 { return &s.skeleton })},
	{Key{Path: "fines_stiffness", Words: "the same for other air, between crumbs and where fines push chips apart", Dimension: units.Length, Low: leastHead, High: mostHead,
		Default: orElse(material.DefaultFines/material.MetreOfWater, fittedToFreeAir)},
		scaled(material.MetreOfWater, 1, func(s *structure) *float64 { return &s.fines })},
	{Key{Path: "half_reached_at", Words: "free air space at which air reaches half of a load; 0 % if it always reaches all", Dimension: units.Fraction, Low: 0, High: 0.5,
		Usual:   &Usual{0.05, 0.25, "air hardly passes below some 10 % of air-filled pores, soil physics, from memory; 20 % is asked for, Eftoda & McCartney, read"},
		Default: orElse(process.DefaultAirPath().Half, assumption)},
		number(func(s *structure) *float64 { return &s.path.Half })},
	{Key{Path: "reach_spread", Words: "free air space above that at which it reaches 73 %", Dimension: units.Fraction, Low: 0.002, High: 0.2,
		Default: orElse(process.DefaultAirPath().Spread, assumption)},
		number(func(s *structure) *float64 { return &s.path.Spread })},
	{Key{Path: "least_reached", Words: "part of a load that air must reach for it to comply; 0 % for no such criterion", Dimension: units.Fraction, Low: 0, High: 1,
		Default: orElse(process.AirThroughout().Share, assumption)},
		number(func(s *structure) *float64 { return &s.least })},
}

// structureKeys are how loads hold air.
func structureKeys() []Key {
	return append([]Key{optional("structure", "air between the particles of settled loads, and how much of a load it reaches",
		"the defaults")},
		slices.Concat(under("structure", airAccountRows, nil), under("structure", structureRows, nil))...)
}
