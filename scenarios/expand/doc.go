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
//     is about how long a configuration lasts at most. From both, a dynamic program
//     over years and configurations finds for every configuration the cheapest
//     plan that ends with it. Of these remain those from which nothing can be left
//     out: the others are no alternatives.
//  2. Windows. The configurations of the best remaining plans, and only they, are
//     simulated in single years until it is known how long they last (see
//     vesselplan). What is learnt also bounds the others: more lasts no shorter.
//     Then back to the program, until its best plans rest on simulation.
//  3. Whole plans. These are simulated from the first year to the last with all
//     their costs, under the same luck, until the cheapest is known with a chance
//     of 95 % (Kim and Nelson's procedure), and until the test of the target has
//     judged each of its years. A year that is missed after all is learnt, and the
//     program asked again.
//
// The program's optimum is exact for what it is given. What it is given is
// simulated where its plans rest on it, but the bound that keeps other
// configurations out of the simulation is an estimate with a margin: it takes for
// granted that a step does not help a plant by more than the stage that it helps
// most.
//
// Money is USD in prices of the stated year and a cost is positive; years count
// from the start of the horizon, from 0; shares are fractions. It renders nothing.
package expand
