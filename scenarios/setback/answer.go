package setback

import (
	"math"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is what setbacks cost.
type Answer struct {
	answer.Basis
	Wrong float64 // chance at most that a verdict is not true
	// Assumed says that the file lists no setbacks, and the built-in ones were tried.
	Assumed  bool
	Money    bool // the file has prices
	Classes  bool // of vessels, more than one
	Setbacks []Setback
}

// Setback is one of them, in one year of the horizon or two.
type Setback struct {
	facilityfile.Setback
	Class string // name of that of the vessels that fail; empty where there is one
	// LoadDry is the cake in a load of such a vessel, kg dry, in the mean of the runs
	// without setbacks.
	LoadDry float64
	Years   []Year
}

// Year is a year in which it happens.
type Year struct {
	Year     int // of the horizon, from 0
	LastKept bool
	Begins   []Begin // by month of the year; of a season one
	// Least and Most are the places of those that cost least and most, and Apart the paired
	// difference between the two, of what leaves untreated, kg dry, or, where ByDelay says so,
	// of the time that cake waits, days. Alike are those that cannot be told from Least. Its
	// interval is as wide as it takes for all beginnings to be told at once.
	Least, Most int
	ByDelay     bool
	Apart       stats.Interval
	Alike       []int
}

// Begin is a setback that begins on a day. All figures are of the twelve months from
// that day on, and compare them with the same months of the same runs without it.
type Begin struct {
	From      calendar.Date
	Untreated Excess // kg dry
	Delay     Excess // days that a kg of the cake waits for what is short
	Failed    Excess // of Untreated: the cake in loads that fail and are hauled away, kg dry
	Lost      Excess // such loads
	Tipping   Excess // USD in the prices of the file, in the two years simulated; 0 without prices

	Missed, Without           stats.Interval // chance of missing the target
	Verdict, VerdictWithout   stats.Verdict
	Fullest, FullestWithout   answer.Spread // of the holding, 0…1
	PeakHeld, PeakHeldWithout answer.Spread // kg dry
	// Felt is after how many months the plant has caught up, as the mean of the runs has
	// it; 0 if it is never felt, and 12 if it may go on.
	Felt int

	untreated, delay []float64 // by replication
	solids           float64   // that come in in the twelve months, kg dry, mean
}

// Excess is by how much more of something there is with a setback than without.
type Excess struct {
	answer.Spread
	Interval stats.Interval // of the mean
}

// Certain reports whether the mean is told from nothing.
func (e *Excess) Certain() bool { return e.Interval.Low > 0 || e.Interval.High < 0 }

// Level is the confidence of the intervals of means and chances.
const Level = 0.9

// Season reports whether the setback is a season.
func (s *Setback) Season() bool { return !s.Fails() }

// noticeable is the part of a year's dry solids that leaves untreated below which a
// difference is not told: a twentieth of what a usual target allows.
const noticeable = 5e-4

// Nothing reports whether no more leaves untreated than without it.
func (b *Begin) Nothing() bool { return math.Abs(b.Untreated.Mean) < noticeable*b.solids }
