// Package sim is a small discrete-event kit: a kernel that orders events on a
// calendar of whole seconds, and servers with queues.
//
// It knows nothing of what is simulated. It holds no randomness (see
// sim/random), no replications (see sim/replicate), no file and no screen. What
// replications say is worked out by sim/stats (how much, how surely), sim/compare
// (which option) and sim/sensitivity (which input matters).
//
// Units: time is whole seconds since the start of the run ([Time], [Duration]).
// Nothing here is safe for use by several goroutines: one kernel, and
// everything built on it, belongs to one goroutine.
//
// The engine underneath is simgo. Nothing outside kernel.go sees it, and only
// its plain timed events are used: simgo carries time from one instant to the
// next, the kernel's own agenda says which that is and orders what happens within
// it. That gives priorities and cancelling, and keeps the number of simgo's events,
// which are dear, to one for each distinct instant at which something happens.
//
// Callbacks run in the middle of the call that allows them, not through a
// further event of zero delay: a free server calls its customer back before
// Seize returns. An event that need not exist costs nothing.
package sim
