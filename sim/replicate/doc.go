// Package replicate runs a job many times on several cores and returns the
// results in order, or hands them on in order.
//
// It knows nothing of what a job does. What comes back, result or error, depends
// on the number of replications only, never on the number of workers nor on
// which of them was quicker.
package replicate
