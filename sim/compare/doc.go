// Package compare chooses the best of several options, each known only through
// replications of a simulation, and says how sure the choice is.
//
// [KimNelson] guarantees a chance of the right choice whenever the best is better
// by at least a difference that matters. [Best] judges replications that are there
// already. Both rest on replications that are independent of one another and about
// normal, as totals of a year are.
//
// It knows nothing of what is simulated and draws no random numbers of its own:
// an option's number for a replication comes from the caller, and the same
// replication should mean the same luck for every option (common random numbers).
// What comes back does not depend on the number of workers.
//
// Units: values and differences have the unit of the options' numbers; chances
// are fractions.
package compare
