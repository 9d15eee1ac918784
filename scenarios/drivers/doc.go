// Package drivers answers what matters: how far each uncertain input of a file
// moves a planning answer, be it the year from which on the plant carries too little
// for the service target, the chips bought, or the present worth. Where the file has
// several growth scenarios, which of them comes true is an input like the others, with
// their weights for its distribution.
//
// It screens by elementary effects, and on request takes the variance of the
// answer apart; the methods are those of package sensitivity. Each point of a
// design is a set of inputs, run over the whole horizon; for the year it goes up ramps of
// production beside the plant with every input at its median, see
// [capability.Capability.Times], unless years do not stand each for itself. The random
// numbers of a replication, its days, weather, breakdowns and deliveries, stay the same
// while an input moves (common random numbers), and are one more input of the design: how
// far they move the answer is what an input without any effect would seem to do if it
// were tried with others each time, the noise floor. The screen calls it chance.
//
// Inputs are moved one by one: correlations of the file play no part. Prices are
// moved only for the present worth, since they change nothing else.
//
// Units: years since the start, m3/year, USD; inputs in the base unit of their
// dimension; shares and quantiles are fractions.
package drivers
