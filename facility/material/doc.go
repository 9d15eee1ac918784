// Package material describes what moves through a composting facility: parcels
// of wet solids by component and size class, the stoichiometry of their
// oxidation, the volume they take when chips and cake share space, and the
// ledger that proves that nothing was lost on the way.
//
// The nouns:
//
//   - Solids: dry matter of one size class, split by how fast it degrades.
//   - Parcel: water and the solids of two size classes, fine (cake, compost,
//     wood fines) and coarse (chips that a screen can give back).
//   - Spec: an as-delivered description (moisture, volatile fraction, …) from
//     which parcels are made.
//   - Formula and Chemistry: oxidation balanced to the atom.
//   - Microbes: how much of the nitrogen that decay releases leaves as ammonia.
//   - Bulk: volume, bulk density and free air space of a parcel; Structure: which
//     air is free in a heap that settles.
//   - Ledger: flows between named stores, closed against inventories.
//
// The package knows no time, no temperature and no equipment. Masses are in
// kg, volumes in m3, densities in kg/m3, fractions in 0…1.
package material
