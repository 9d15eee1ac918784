// Package options compares what could be done about a plant: for the plant as it
// is and for each option of the file, under each growth scenario, what it costs
// over the horizon, whether it keeps the service target, which comes first, and
// how sure that is.
//
// All options meet the same replications (common random numbers), so that what
// they differ by is theirs. What keeps the target in every year comes first, then
// what misses it in the fewest years or in one year more on average, then the rest;
// of those that are alike in this, the lower expected present worth of the costs.
// Expected is over the growth scenarios, by their weights.
//
// Whether a choice keeps the target in a year follows from what the plant carries with
// its steps in force, as in the question of when vessels must be ordered (package
// capability); for steps that wait for a sign, and plants whose years do not stand for
// themselves, it is judged by the runs. Where the file has a catalogue, the plan that
// the question expand finds there is a choice beside the file's own options.
//
// Replications are added in rounds until the first is cheapest with a chance of
// 95 %, or 99 % in the first round if what the first costs more or less than what the
// headline holds it against is known to a tenth. The chance is Bonferroni's bound from paired t
// statistics, see [compare.Best]. Then come replications of those choices alone that are
// judged by their runs while it is in doubt whether they keep the target, each under one
// growth scenario, of which each has its weight's share of them; until it is not, or there
// are no more to spend.
//
// Money is in USD of the stated year and a cost is positive. Masses are kg dry,
// times years, shares fractions. It renders nothing.
package options
