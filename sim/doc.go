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
// its plain timed events are used: simgo carries time to the first instant of each
// stretch of four weeks in which something happens, the kernel's own agenda says which
// that is and orders what happens from there to the end of the stretch. That gives
// priorities and cancelling, and keeps the number of simgo's events, which are dear, to
// one for each stretch with events. It is a queue in two steps, as a diary is.
//
// Callbacks run in the middle of the call that allows them, not through a
// further event of zero delay: a free server calls its customer back before
// Seize returns. An event that need not exist costs nothing.
package sim
