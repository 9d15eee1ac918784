// Package sizing sets what each stage of a plant sustains beside what comes, by
// arithmetic on full loads: what a reader of a facility file wants to know before
// anything is simulated. What it finds short is short; what it finds enough may not be,
// for it knows nothing of queues, noise and time lost between stages.
package sizing
