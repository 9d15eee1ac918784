package process

import "loamcast/sim/digest"

// Physics identifies what the courses of a table follow from: tables of the same physics
// hold the same courses at the same points, as long as the program is the same.
type Physics digest.Sum

// Physics returns that of the table: a hash of every field of its model, to the last bit,
// and of how closely its courses are followed and where its points lie.
func (r *Responses) Physics() Physics {
	return Physics(digest.Of(r.m, r.maxHours, r.steps, r.levels, r.grid, r.spacing, r.tipped, r.sized, r.asTheyAre, r.byDry))
}
