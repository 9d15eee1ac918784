// Package threshold estimates how much load a thing bears before it fails, from
// trials that failed or did not.
//
// Each trial puts a load on a unit. What a unit bears follows from a normal deviate, of
// which a part stays with the unit and a part is new in every trial. The share of trials
// that fail is then a normal curve in what stands for the load (probit analysis, Finney
// 1947; with a random effect of the unit, McCulloch and Searle 2001; both from memory),
// which rises with the load by construction, and needs far fewer trials than counting
// at each load would.
//
// What stands for the load is neither the load nor its logarithm but, of a logarithm u
// spreads above the middle, (exp(k·u) − 1)/k with one k for all things: a power of the load
// (Box and Cox 1964, from memory) that is the greater the less thresholds differ, so that
// curves of wide and narrow spread have one form, see skew. A curve is as a
// whole moved and stretched in the logarithm of the load.
//
// Some trials may fail whatever the load, by a share that differs from unit to unit: a
// background (natural mortality in Finney's book, from memory). It is looked for where the
// curve without one comes out flat, and believed where the trials speak for it clearly.
//
// It knows nothing of what the load is. Loads are positive numbers of any unit.
package threshold
