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
	Of        Tested
	// Builds says that the file has options or a catalogue, whose capital the plant as it
	// is does not spend.
	Builds bool

	Drivers []Driver // the one that moves the output most first
	Noise   Driver   // what an input without effect would seem to do
	// Least, Mean and Most are the output over the points of the screening.
	Least, Mean, Most float64
	// ByRuns is why the vessels' year is the mean over runs of the year first missed, in
	// words that follow "because"; empty if it follows from what the plant carries. Then
	// Median is the year with every input at its median, under the growth that is believed
	// in most, and Main the name of that growth, empty if there is but one.
	ByRuns string
	Median float64
	Main   string
	// Kept is the share of the screening's points, or by runs of its runs, in which the
	// target is kept to the end of the horizon, so that their year is its end, and Begun
	// the share of points in which it is missed from the first year on.
	Kept, Begun float64
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
	Runs int // simulated in all at the points of the designs
	// Simulated counts the years simulated for what the plant carries, warm-ups included.
	Simulated int
}

// Level is the confidence of all intervals.
const Level = 0.95

// Keys of what is no input of the list uncertain.
const (
	GrowthKey = "growth_scenarios"
	NoiseKey  = "chance"
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
