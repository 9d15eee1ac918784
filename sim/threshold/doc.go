// Package threshold estimates how much load a thing bears before it fails, from
// trials that failed or did not.
//
// Each trial puts a load on a unit. What a unit bears is lognormal: the logarithm
// of its threshold has a mean common to all, a part that stays with the unit and a
// part that is new in every trial. The share of trials that fail is then a normal
// curve in the logarithm of the load (probit analysis, Finney 1947; with a random
// effect of the unit, McCulloch and Searle 2001; both from memory), which rises
// with the load by construction, and needs far fewer trials than counting at each
// load would.
//
// Some trials may fail whatever the load, by a share that differs from unit to unit: a
// background (natural mortality in Finney's book, from memory). It is looked for where the
// curve without one comes out flat, and believed where the trials speak for it clearly.
//
// It knows nothing of what the load is. Loads are positive numbers of any unit.
package threshold
