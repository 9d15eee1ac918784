//go:build race

package sim

// raceDetector is on, which makes a run some ten times slower.
const raceDetector = true
