package vesselplan

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is the staircase of vessels: what each number of them lasts for.
type Answer struct {
	Facility string
	Source   string // file, or built-in example
	Invented bool
	Version  string
	Seed     uint64

	Start  calendar.Date
	Years  int // of the horizon
	Target facilityfile.Target
	Test   stats.ShareTest // that judges a year
	Most   int             // replications of a year, at most
	// LeadDays is how long a vessel takes from its order.
	LeadDays float64
	// Committed says that the file's own changes add vessels on top.
	Committed bool
	Installed int // on the first day, by the file

	Growths []Growth
	// Simulated counts the years simulated, warm-ups included, and Whole how many
	// there would be if every cell were simulated with Most replications.
	Simulated, Whole int
	Cautions         []answer.Caution
}

// Growth is the staircase in one growth scenario.
type Growth struct {
	Name   string
	Weight float64
	Rows   []Row // by number of vessels
	// StaticMean and StaticPeak are the handbook's estimate of vessels by year,
	// at the mean and in the month of the highest production.
	StaticMean, StaticPeak []float64
	// Next is what the plant can carry beside vessels, least first, with the most
	// vessels of Rows in the last year that they keep.
	Next []plant.Capacity
	Fed  float64 // kg dry per day in that year, mean
}

// Row is one number of vessels.
type Row struct {
	Vessels int
	// LastKept is the last year from the start on that keeps the target with all
	// before it, −1 if the first does not. FirstMissed is the first year that
	// misses it, Years if none does. Years between are too near to the target to
	// tell.
	LastKept, FirstMissed int
	Tested                []Year // in order of years
	// Between is how far off the first year missed may be. It is looked into for the
	// vessels installed and the growth believed in most, and nil elsewhere and where
	// no year is missed.
	Between  *Between
	NeededBy calendar.Date
	OrderBy  calendar.Date
	// Late says that the order would have to be placed before the start.
	Late bool
	// StaticAverage and StaticPeak are the first years in which the handbook's
	// estimate asks for more vessels, at the mean and in the month of the highest
	// production; Years if none does.
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

// Main returns the first growth scenario of the highest weight.
func (a *Answer) Main() *Growth {
	best := &a.Growths[0]
	for i := range a.Growths {
		if a.Growths[i].Weight > best.Weight {
			best = &a.Growths[i]
		}
	}
	return best
}

// Label names a year of the horizon.
func (a *Answer) Label(year int) string { return answer.YearLabel(a.Start.AddYears(year)) }

// Kept returns the row with the fewest vessels that keeps the target in every
// year, nil if none does.
func (g *Growth) Kept(years int) *Row {
	for i := range g.Rows {
		if r := &g.Rows[i]; r.LastKept == years-1 {
			return r
		}
	}
	return nil
}

// VesselsHelp reports whether the target is kept longer with the most vessels of
// the rows than with the fewest, or always.
func (g *Growth) VesselsHelp() bool {
	first, last := g.Rows[0], g.Rows[len(g.Rows)-1]
	return last.LastKept > first.LastKept || len(g.Rows) == 1
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
