// Package sensitivity asks which inputs of a model matter: how much its output
// moves with each of them ([Screening], few evaluations for many inputs) and
// what share of the output's variance each accounts for ([Decomposition], many
// evaluations for few inputs).
//
// Both work alike. A design has Points; the caller evaluates his model at each of
// them, in any order and on as many cores as he likes; the design then reads one
// value per point. A model with several outputs is evaluated once and read once
// for each. A larger design of the same seed and levels begins with the points of
// the smaller one, so values already there are never lost.
//
// It knows nothing of the model and of what the inputs mean. A point has one
// coordinate for each input, above 0 and below 1: the probability that the input
// is lower. The caller turns it into a value by the input's own distribution,
// random.Distribution.Quantile. So every input counts as far as it is uncertain,
// and results are free of the inputs' units; inputs are taken to be independent.
//
// A model with chance of its own has it as one more input, a coordinate from which
// the caller picks the replication: what is due to chance then shows as that
// input's share and does not blur the others. Or it keeps the same luck at all
// points, and what comes out holds for that luck.
//
// Units: effects have the unit of the output, shares are fractions.
package sensitivity
