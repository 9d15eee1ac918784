package expand

import (
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is the cheapest plan that keeps the service target, and the next.
type Answer struct {
	answer.Basis

	// Growth is the scenario looked at alone, or all of them by weight.
	Growth answer.Scenario
	Alone  bool
	Stated int     // the year whose prices money is in
	Real   float64 // discount rate above the general rise of prices, per year
	// ByRuns says that the years of each plan were judged by whole runs, and why, in
	// words that follow "because"; it is empty where what the plant carries tells them.
	ByRuns string

	// AsIs is the last year that the plant keeps without any step, −1 if not even
	// the first, and AsIsShort what is short in the year after. It misses
	// the years from AsIsMissed on; those between are too near to the target to tell,
	// and count as missed.
	AsIs, AsIsMissed int
	AsIsShort        capability.Lack
	// Through is the last year that the plans keep with all before it: the last of
	// the horizon, unless the catalogue has no plan that does.
	Through int
	// Short is, if Through is not the last year, what is short in the
	// year after it with the first plan.
	Short capability.Lack

	// Plans are the cheapest of each set of steps, in order of their mean present
	// worth. Without a step left out they would cost more, or keep less.
	Plans []Plan
	// Doubt is how far the first plan rests on what is not known of what the plant
	// carries; nil where whole runs judge, or no plan keeps the target.
	Doubt *Doubt
	// Adaptive is the first plan with signs in the place of dates; nil where none of its
	// steps has a sign, or one growth scenario is looked at alone.
	Adaptive *Adaptive
	// Chance is about the chance that the first is the cheapest plan that keeps the target:
	// that it costs least of Plans, OfThese, and that, where there is a Doubt, it keeps the
	// target and no cheaper plan does, by what is not known of what the plant carries.
	// Settled says that the procedure that compared the costs came to its end, and that
	// the target is surely kept by the first and the next.
	Chance, OfThese float64
	Settled         bool
	// Indifference is the difference of present worth below which it does not
	// matter to the procedure which plan is the cheapest, USD.
	Indifference float64

	Configurations int // of the catalogue
	Simulated      int // of them, by years of their own
	YearsSimulated int // of the plant in all, warm-ups included
	Most           int // replications of a plan, at most
}

// Keeps reports whether the plans keep the target in every year.
func (a *Answer) Keeps() bool { return a.Through == a.Horizon-1 }

// AsItIs reports whether the plant keeps the target in every year without any
// step.
func (a *Answer) AsItIs() bool { return a.AsIs == a.Horizon-1 }

// Near returns the first and the last year of those in which the plant as it is
// is too near to the target to tell, if there are any.
func (a *Answer) Near() (from, to int, some bool) {
	return a.AsIs + 1, a.AsIsMissed - 1, a.AsIsMissed > a.AsIs+1
}

// Plan is one way to phase steps.
type Plan struct {
	Steps []Step // in the order in which they come into service
	// Dated are the same as steps of an option, one for each unit.
	Dated []facilityfile.Step

	// Present is the mean present worth of all costs, those of running the plant
	// included, with its 95 % interval: that of the first plan and OverFirst. Low and
	// High are P10 and P90 of the runs, and ByPart the mean by part.
	Present   stats.Interval
	Low, High float64
	ByPart    money.Amounts
	// Contract are the mean dry solids hauled by contract over the horizon, kg, which do
	// not count as untreated, and ContractShare their part of all.
	Contract, ContractShare float64
	// OverFirst is what the plan costs more than the first, paired by replication,
	// 95 %.
	OverFirst stats.Interval

	// Shares are by year the shares of runs that miss the target, by what the plant
	// carries, 90 %; nil where whole runs judge.
	Shares []stats.Interval
	// Missed counts by year the whole runs that miss the target, of Replications.
	Missed       []int
	Replications int
	// Verdict says whether every year through Answer.Through is kept: Below that it
	// surely is; Undecided that the runs are too few, or some year too near to
	// the target, to be certain. A plan that misses a year is not shown.
	Verdict stats.Verdict
	// Worst is the year, through Answer.Through, that most runs miss, the first of
	// several, and Share how many do: as in Shares, or of the whole runs, 95 %.
	Worst int
	Share stats.Interval
}

// Build is the mean present worth of what is bought, less what it is worth at the
// end, USD.
func (p *Plan) Build() float64 { return p.ByPart[money.Capital] + p.ByPart[money.Salvage] }

// Sure reports whether every year is surely kept that the plan has to keep.
func (p *Plan) Sure() bool { return p.Verdict == stats.Below }

// Step is a step of the catalogue in a plan.
type Step struct {
	Name      string
	Brings    string // vessels of which class, each time; empty where there is one class only
	Count     int    // how often, in the same year
	Year      int    // of the horizon, from whose start it is in service
	InService calendar.Date
	OrderBy   calendar.Date
	// Late says that the order would have to be placed before the start.
	Late bool
	// Later says that it comes so near the end of the horizon that it is no decision
	// yet: how long it would serve is not looked at, nor what could serve instead.
	Later bool
}
