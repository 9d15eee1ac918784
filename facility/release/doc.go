// Package release holds the rule by which a load leaves the vessel and a lot the
// curing pad. It is given what the courses say and decides; it moves nothing and
// keeps no time. Runs and the steady loop both obey it.
//
// Units: hours from the start of the load, unless said otherwise.
package release
