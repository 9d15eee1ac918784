package drivers

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/units"
	"loamcast/sim/sensitivity"
)

// Answer is how far each uncertain input moves an output.
type Answer struct {
	answer.Basis
	Installed int  // vessels on the first day, by the file
	Committed bool // the file's own changes add vessels on top
	Output    Output

	Drivers []Driver // the one that moves the output most first
	Noise   Driver   // what an input without effect would seem to do
	// Least, Mean and Most are the output over the points of the screening.
	Least, Mean, Most float64
	// Kept is the share of the screening's runs in which the target is never
	// missed, so that their time is the end of the horizon.
	Kept float64
	// Correlated says that the file has correlations, which play no part here, and
	// Unpriced that its uncertain prices are left out, since they move the cost alone.
	Correlated, Unpriced bool

	Trajectories int
	Points       int // of each trajectory
	RunsAPoint   int
	// Rows is the size of the design for shares of the variance, 0 if they were not
	// asked for, and SD the standard deviation of the output over it.
	Rows int
	SD   float64
	Runs int // simulated in all
}

// Level is the confidence of all intervals.
const Level = 0.95

// Keys of what is no input of the list uncertain.
const (
	GrowthKey = "growth_scenarios"
	NoiseKey  = "luck"
)

// Driver is an input and what it does.
type Driver struct {
	Key string // as in the file, such as "solids.growth"; GrowthKey; NoiseKey
	// Low and High are the input at its 5 % and 95 % quantile, in the base unit of
	// Dimension. Growth scenarios have names in their place, the noise has neither.
	Low, High         float64
	LowName, HighName string
	Dimension         units.Dimension
	// Effect on the output, in its unit, over the whole range of the input.
	Effect sensitivity.Effect
	// Share of the output's variance, if it was asked for.
	Share sensitivity.Share
}

// Above reports whether a driver moves the output more than the noise does.
func (a *Answer) Above(d *Driver) bool {
	return d.Effect.MuStar.Estimate > a.Noise.Effect.MuStar.Estimate
}
