package options

import (
	"loamcast/scenarios/answer"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/money"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Answer is what the comparison says.
type Answer struct {
	answer.Basis         // Replications are those that all choices have, under each growth scenario
	Stated       int     // the year whose prices money is in
	Real         float64 // discount rate above the general rise of prices, per year
	// Missing is what the dry solids cost that leave untreated beyond what the target
	// allows, USD/kg; 0 where the file gives missing it no price. With a price it is
	// among the costs, and regret is over all choices; without, over those that keep
	// the target.
	Missing float64
	AirKept bool // the file limits the site's air, so that hours over it mean something

	Choices []Choice // the plant as it is, then the options in the order of the file
	Order   []int    // places in Choices, the first ranked first
	// Chance is about the chance that the first ranked is the cheapest of its
	// standing. It is 1 when it is the only one.
	Chance float64
	// Settled says that the chance asked for was reached, and that neither who keeps
	// the target nor the first year that it is missed is in doubt where it would
	// matter.
	Settled bool

	Most int // replications that were allowed
	Runs int // all together

	// reckoning is what the costs are made of, for who reckons them again.
	reckoning *doc.Reckoning
}

// Choice is the plant as it is, or an option.
type Choice struct {
	Name string
	AsIs bool
	// Found says that it is the plan that the question expand finds in the file's
	// catalogue, and none of the file's options.
	Found bool
	Steps []Step
	// Words list the steps of the plan found. Told is the present worth of its costs that
	// expand tells, USD, from ToldRuns whole runs, each under one growth scenario.
	Words    doc.Text
	Told     float64
	ToldRuns int

	// Replications are those run under each growth scenario, which the costs are of:
	// Answer.Replications, or fewer. Judged are those that tell how often it misses, where
	// runs do: with others that were run under one growth scenario each.
	Replications, Judged int

	Standing Standing
	Service  Service
	All      Summary   // over the growth scenarios, with their weights
	Growths  []Summary // in order of Answer.Scenarios

	// Regret and WorstRegret are the weighted mean and the worst of its regrets under
	// the growth scenarios, USD, if Regretted says that it has them.
	Regretted           Regretted
	Regret, WorstRegret float64
}

// Standing says how well a choice serves. The better standing is ranked first
// whatever it costs.
type Standing int

const (
	Keeps   Standing = iota // the service target in every year
	Nearest                 // misses it in at most one year more, on average, than the least that any other that misses it does
	Misses                  // it in more years
)

var standingNames = [...]string{"keeps the target", "nearest to it", "misses it"}

// String returns the standing in plain words.
func (s Standing) String() string { return standingNames[s] }

// Step is a step of an option, and how often it was taken.
type Step struct {
	Name      string
	Brings    string        // vessels of which class; empty where there is one class only
	Triggered bool          // it waits for a sign, and not for a date
	Taken     float64       // share of the runs in which it takes effect within the horizon, weighted
	InService calendar.Date // median of these
}

// Service is how well the service target is kept.
type Service struct {
	Keeps bool // in every year
	// ByRuns says that it was judged by the runs of the choice, with intervals of 95 %,
	// and not by what the plant carries, with intervals of 90 %.
	ByRuns bool
	// Sure says that the interval of the worst year lies on one side of the share
	// that may miss.
	Sure bool
	// FirstMissed is the first year of the horizon in which more runs miss the
	// target than may, −1 if there is none.
	FirstMissed int
	// MayMiss is the first year that a run misses and of which the interval leaves
	// open, or affirms, that more do than may; SurelyMissed the first of which it
	// affirms that. They are −1 if there is none.
	MayMiss, SurelyMissed int
	// Worst is the year that most runs miss, and Share how many.
	Worst int
	Share stats.Interval
	// Years is the share of runs that miss each year, weighted, and YearsMissed
	// the mean number of years that a run misses.
	Years       []float64
	YearsMissed float64
}

// Summary describes the runs of a choice, under one growth scenario or all.
type Summary struct {
	Present   stats.Interval // mean present worth of the costs, 95 %
	Low, High float64        // its P10 and P90
	// Differences of present worth, paired by replication, 95 %: what this choice
	// costs more than the plant as it is, and than the first ranked.
	OverAsIs, OverFirst stats.Interval
	Annual              float64       // mean equivalent annual cost, USD/year
	PerDry              float64       // mean levelised cost, USD/kg of dry solids fed
	ByPart              money.Amounts // mean of Present
	Diverted            float64       // mean dry solids that leave untreated, kg over the horizon
	Share               float64       // of all dry solids
	Contract            float64       // mean dry solids hauled by contract, which do not count as untreated, kg over the horizon
	ContractShare       float64       // of all dry solids
	YearsMissed         float64       // mean number of years that miss the target, as in Service
	HoursOver           float64       // mean hours over the air limit, over the horizon
	WaitedAlone         float64       // those of them that miss it by cake that waits too long alone, which has no price
	// Regret is the mean present worth over that of the cheapest under the same
	// growth scenario, USD, if Regretted says that it has one. For all growth
	// scenarios together see Choice.
	Regretted Regretted
	Regret    float64
	Keeps     bool // the target, under this scenario alone
}

// First returns the choice that is ranked first.
func (a *Answer) First() *Choice { return &a.Choices[a.Order[0]] }

// Ranked is a choice with its rank, from 1.
type Ranked struct {
	Rank int
	*Choice
}

// Ranking returns the choices in order of rank.
func (a *Answer) Ranking() []Ranked {
	list := make([]Ranked, len(a.Order))
	for rank, i := range a.Order {
		list[rank] = Ranked{rank + 1, &a.Choices[i]}
	}
	return list
}

// MissedFrom labels the first year in which a choice misses the target; it is
// empty if there is none.
func (a *Answer) MissedFrom(c *Choice) string {
	if c.Service.Keeps {
		return ""
	}
	return a.Label(c.Service.FirstMissed)
}

// YearSure reports whether the first missed year of a choice that does not keep
// the target is certain.
func (s *Service) YearSure() bool {
	return s.Keeps || s.MayMiss == s.FirstMissed && s.SurelyMissed == s.FirstMissed
}

// next returns the cheapest choice after the first, of those of some standing or
// better, or nil.
func (a *Answer) next(standing Standing) *Choice {
	for _, i := range a.Order[1:] {
		if c := &a.Choices[i]; c.Standing <= standing {
			return c
		}
	}
	return nil
}
