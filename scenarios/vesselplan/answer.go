package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is what each number of vessels lasts for, and when to order more.
type Answer struct {
	answer.Basis
	// Wrong is the chance that a year's verdict is wrong, on either side.
	Wrong float64
	Runs  int           // behind each share of runs
	Look  Look          // what kind of look before the answer it is, if any
	Lead  calendar.Span // from the order of a vessel until it can be loaded
	// Committed says that the file's own changes add vessels on top.
	Committed bool
	// Added are, by year, those that changes with a date have added by its end.
	Added     []int
	Installed int // on the first day, by the file
	// Classes are those of the vessels, and Next the names of those of the vessels that
	// are ordered one after the other; nil where there is one class only.
	Classes []ClassCount
	Next    []string

	// Calendar says why years of the calendar were simulated, in words that follow
	// "because"; empty where the capability of the plant tells them.
	Calendar string
	// Capability is what the plant carries with each number of vessels, nil where
	// years of the calendar were simulated.
	Capability []Capability

	Check Check // none where whole runs were simulated anyway

	Growths []Growth // in the file's order
	All     Growth   // over all growth scenarios by weight
	Orders  []Order  // by quarter in which more vessels might be ordered
	// Batch is how many vessels to order at a time, 0 if none need be.
	Batch Batch
	Sign  *Sign // nil where none was found
	// Hauls says that a contract takes cake, from the start or later, and Contract which
	// shares of the dry solids that come in each year it hauls with the vessels of the file,
	// in the mean of the whole runs of Check; nil where there are none.
	Hauls    bool
	Contract []float64

	// Simulated counts the years simulated, warm-ups included.
	Simulated int
}

// Capability is the production, kg dry per day in the mean of a year, that a
// number of vessels carries. It is infinite where nothing within reach is too
// much.
type Capability struct {
	Vessels int
	// AtTarget is the production at which the share of runs that the target allows
	// misses a year, and Half that at which half of them do.
	AtTarget, Half stats.Interval
	// Background is the share of years that miss it whatever comes in.
	Background stats.Interval
}

// Growth is the staircase in one growth scenario.
type Growth struct {
	answer.Scenario
	Rows []Row // by number of vessels
	// StaticMean and StaticPeak are the handbook's estimate of vessels by year,
	// at the mean and in the month of the highest production.
	StaticMean, StaticPeak []float64
	// Next is what the plant can carry beside vessels, with the most vessels of
	// Rows in the last year that they keep.
	Next []plant.Capacity
	Fed  float64 // kg dry per day in that year, mean
}

// Row is one number of vessels.
type Row struct {
	Vessels int
	// LastKept is the last year from the start on that keeps the target with all
	// before it, −1 if the first does not. FirstMissed is the first year that
	// misses it, Horizon if none does. Years between are too near to the target to
	// tell.
	LastKept, FirstMissed int
	// Shares are the shares of runs that miss, by year; nil where the row was
	// searched for its years alone.
	Shares []stats.Interval
	// Short is the quarter of the horizon, from 0, by whose end more runs than the
	// target allows may have begun to miss it, and more vessels are needed; four times
	// the years if none. For all that is known they are needed in it at the earliest,
	// and in ShortTo at the latest.
	Short, ShortTo int
	// NeededBy and OrderBy are the days by which more vessels must be there, and be
	// ordered, if any year is missed; [Answer.Needed] and [Answer.Ordered] say what
	// that means for a plan.
	NeededBy, OrderBy calendar.Date
	// StaticAverage and StaticPeak are the first years in which the handbook's
	// estimate asks for more vessels, at the mean and in the month of the highest
	// production; Horizon if none does.
	StaticAverage, StaticPeak int
	// Limit is what is short where the target is missed, other than working hours and
	// cake for a load.
	Limit capability.Lack
	// Stay is how long a load took a vessel where vessels run short, turnaround
	// included, days, and CakePerLoad the dry cake in it, kg; beside them what the
	// static estimate reckons with. Nothing is known of them if no year is missed.
	Stay, StaticStay               float64
	CakePerLoad, StaticCakePerLoad float64
}

// Missed reports whether the row misses the target within the horizon.
func (r *Row) Missed(years int) bool { return r.FirstMissed < years }

// RunsShort reports whether the target may be missed within the horizon.
func (r *Row) RunsShort(years int) bool { return r.Short < years*quarters }

// Order is a quarter in which more vessels might be ordered.
type Order struct {
	Quarter calendar.Date // a day in it; they are ordered by its end
	InUse   calendar.Date // the day on which they can be loaded
	// Late is the chance of missing the target before they are in use: the share of
	// runs, over all growths by weight, in the worst year that begins to be missed
	// before then.
	Late     stats.Interval
	ByGrowth []float64 // that share in each growth scenario
	// Untreated is what is expected to leave untreated before they are in use, kg
	// dry, and Cost what hauling it away costs, in the prices of the file's year;
	// NaN without prices.
	Untreated, Cost float64
}
