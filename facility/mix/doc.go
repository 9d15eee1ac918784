// Package mix designs the batch that a mixer makes: how much of each material
// on hand gives a mix that meets its targets at least cost, or with the most
// cake in a batch, and what the nearest mix is when no mix meets them all.
//
// All targets are linear in the masses except those on volume, bulk density
// and free air space. These follow material.Bulk, which is smooth in pieces
// and grows in proportion to the batch. On each piece (material.Branch) the
// volume is replaced by its tangent, a small linear program is solved, and the
// tangent is moved to the answer until nothing changes. The answer of every
// piece is then checked on the volume model itself, and the best one kept.
//
// The package is not a process model: it says nothing of what happens to a mix
// later, and it knows no currency. Cost is a weight that the caller supplies.
//
// Units: kg wet mass unless a name says dry, m3, kg/m3, fractions 0…1. C:N is a
// mass ratio; chips-to-cake is a ratio of volumes as delivered.
package mix
