// Package expand searches the catalogue of a file for the phased plan that costs
// least, as present worth, among those that keep the service target in every
// year, and says what the next best plans cost more.
//
// The nouns:
//
//   - configuration: how often each step of the catalogue has been taken.
//   - plan: a configuration for each year, none smaller than the one before. A
//     step comes into service at the start of a year of the horizon, since that is
//     how long the target is judged over, and is ordered its lead time before.
//   - lasting: the last year that a configuration keeps with all before it.
//
// Three stages, each of which looks at less and looks closer:
//
//  1. Screening. What a step costs when it comes in a year is arithmetic, and so
//     is about how long a configuration lasts at most. (What a contract for disposal
//     costs hangs on all else that is built: see hauling.go.) From both, a dynamic program
//     over years and configurations finds for every configuration the cheapest
//     plan that ends with it. Of these remain those from which nothing can be left
//     out: the others are no alternatives.
//  2. What configurations carry. Those of the best remaining plans, and only they, are
//     tried with production that rises until their years miss the target (see
//     capability), first by two ramps, a glance that steers the search, and then, where
//     the best plans rest on them, by all: so it is known how long each lasts, over all growth scenarios by
//     weight: through the last year before the first that may be missed, for all that
//     is known, by more runs than may. What is learnt also bounds the others: more
//     lasts no shorter. Then back to the program, until its best plans rest on
//     simulation by all ramps.
//  3. Whole plans. These are simulated from the first year to the last with all
//     their costs, each replication under a growth scenario of its own and all plans
//     under the same luck, until the cheapest is known with a chance of 95 % (Kim and
//     Nelson's procedure). They are a check on the target: a year that they miss far
//     more often than chance would have it is learnt, and the program asked again.
//     Where years do not stand for themselves, a test of the target judges each year
//     by whole plans alone.
//
// At last the first plan is simulated with a sign in the place of each date: a step is
// ordered when the production of the last twelve months shows that it will be needed.
//
// What comes in the last tenth of the horizon is cheap there, since nearly all of it is
// worth something at the end, and how long it would serve is not looked at: it is told
// as no decision yet, and makes no other plan.
//
// The program's optimum is exact for what it is given. What it is given is
// simulated where its plans rest on it, but the bound that keeps other
// configurations out of the simulation is an estimate with a margin: it takes for
// granted that a step does not help a plant by more than the stage that it helps
// most. A glance, too, may put off a configuration that all its ramps would have last a
// year longer; it errs on the long side, by leaving nothing for how far off it is.
//
// Money is USD in prices of the stated year and a cost is positive; years count
// from the start of the horizon, from 0; shares are fractions. It renders nothing.
package expand
