// Package capability finds how much production a plant carries at its service
// target. That is a property of the plant, which growth does not change: growth
// only says when so much arrives.
//
// A plant is tried with production that rises from year to year, through the range
// in which its years begin to miss the target, in many replications, each with
// values of its own for the uncertain inputs. Every year is a trial: so much came
// in, and it missed or did not. The share of years that miss is then a smooth curve
// in the year's production, and the share in any calendar year is the mean of the
// curve over the productions that growth may bring in that year. No more runs are
// needed for another growth.
//
// It holds for a plant that stays as it is. Where the file changes the plant on
// dates, or cake is held for so long that a year depends on the one before, see
// [Steady], years of the calendar must be simulated instead.
//
// Production is in kg dry per day of cake, the mean of a year.
package capability
