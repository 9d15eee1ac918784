package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is the staircase of vessels: what each number of them lasts for.
type Answer struct {
	answer.Basis
	Test stats.ShareTest // that judges a year
	Most int             // replications of a year, at most
	// Lead is how long a vessel takes from its order.
	Lead calendar.Span
	// Committed says that the file's own changes add vessels on top.
	Committed bool
	// Added are, by year, those that changes with a date have added by its end.
	Added     []int
	Installed int // on the first day, by the file

	Growths []Growth
	// Simulated counts the years simulated, warm-ups included, and Whole how many
	// there would be if every cell were simulated with Most replications.
	Simulated, Whole int
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
	Tested                []Year // in order of years
	// Between is how far off the first year missed may be. It is looked into for the
	// vessels installed and the growth believed in most, and nil elsewhere and where
	// no year is missed.
	Between *Between
	// NeededBy and OrderBy are the days by which more vessels must be there, and be
	// ordered, if any year may be missed; [Answer.Needed] and [Answer.Ordered] say
	// what that means for a plan.
	NeededBy, OrderBy calendar.Date
	// StaticAverage and StaticPeak are the first years in which the handbook's
	// estimate asks for more vessels, at the mean and in the month of the highest
	// production; Horizon if none does.
	StaticAverage, StaticPeak int
	// Limit is what solids waited for most in the year after LastKept, other than
	// for vessels, working hours or a load to come together.
	Limit plant.Cause
	// Stay is how long a load took a vessel in the year after LastKept, turnaround
	// included, days, and CakePerLoad the dry cake in it, kg; beside them what the
	// static estimate reckons with. Nothing is known of them if no year is missed.
	Stay, StaticStay               float64
	CakePerLoad, StaticCakePerLoad float64
}

// Missed reports whether the row misses the target within the horizon.
func (r *Row) Missed(years int) bool { return r.FirstMissed < years }

// Sure reports whether the last year kept and the first missed are neighbours.
func (r *Row) Sure() bool { return r.FirstMissed == r.LastKept+1 }

// Year is a year that was simulated.
type Year struct {
	Year    int
	Verdict stats.Verdict  // Below keeps the target, Above misses it
	Share   stats.Interval // of the runs that miss the target, 95 %
	Trials  int
}

// Of returns what is known of a year that was tested.
func (r *Row) Of(year int) (y Year, ok bool) {
	for _, y := range r.Tested {
		if y.Year == year {
			return y, true
		}
	}
	return Year{}, false
}
