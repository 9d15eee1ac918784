package expand

import (
	"context"
	"math"
	"slices"

	"loamcast/scenarios/capability"
	"loamcast/sim/stats"
)

// Doubt is what it means that it is known from some runs only what the plant carries.
type Doubt struct {
	// Range is what the cheapest plan that keeps the target for sure may cost if other
	// runs are looked at, 90 %, USD: each of the capabilities that are as likely may be
	// what these find, as far off as this one may be.
	Range stats.Interval
	// Caution is what the first plan costs more than Likeliest, the cheapest that would
	// keep the target if the plant carried just what is likeliest, USD.
	Caution   float64
	Likeliest []Step
	// Keeps is the share of the capabilities that are as likely by which the first plan
	// keeps the target, and Stays of those by which it does and none that is cheaper.
	Keeps, Stays float64
	// Rival is the cheaper plan that is the cheapest by more of them than any other; nil
	// where none is.
	Rival *Rival
}

// Rival is a plan that costs less than the first and may keep the target.
type Rival struct {
	Steps []Step
	Less  float64 // than the first, USD
	Keeps float64 // share of the capabilities that are as likely by which it keeps the target
}

// doubt asks the program again for each capability that is as likely as that found. It
// is nil where whole runs judge, or no plan keeps the target in all of them. A plan with
// configurations that were not looked at might cost less still.
func (e *expansion) doubt(ctx context.Context, first *whole, p *Plan, through int, alike float64) (*Doubt, error) {
	if !e.steady || through < e.years-1 {
		return nil, nil
	}
	likeliest, ok, err := e.likeliest(ctx, through)
	if !ok || err != nil {
		return nil, err
	}
	kept := e.lookedAt()
	var costs []float64
	for likely := 1; likely <= capability.Resamples; likely++ {
		if plan, ok := e.cheapest(kept, likely, true, through); ok {
			costs = append(costs, plan.cost)
		}
	}
	if len(costs) == 0 {
		return nil, nil
	}
	slices.Sort(costs)
	runs, err := stats.MeanInterval(first.present(first.told), capability.Sureness)
	if err != nil {
		return nil, err
	}
	at := p.Present.Estimate
	below := math.Hypot(runs.Estimate-runs.Low, max(0, first.cost-stats.SortedQuantile(costs, (1-capability.Sureness)/2)))
	above := math.Hypot(runs.High-runs.Estimate, max(0, stats.SortedQuantile(costs, (1+capability.Sureness)/2)-first.cost))
	out := &Doubt{
		Range:   stats.Interval{Estimate: at, Low: at - below, High: at + above, Level: capability.Sureness},
		Caution: max(0, first.cost-likeliest.cost), Likeliest: e.stepsTaken(likeliest),
	}
	e.rivals(out, first.path, through, alike)
	return out, nil
}

// lookedAt is how long the configurations last that were looked at closely.
func (e *expansion) lookedAt() []*endurance {
	kept := make([]*endurance, e.size)
	for _, c := range e.order {
		if e.odds[c] != nil {
			kept[c] = e.endurance(c, e.odds[c])
		}
	}
	return kept
}

// orAbout is the same also of those at which there was a glance only.
func (e *expansion) orAbout() []*endurance {
	kept := make([]*endurance, e.size)
	for c, seen := range e.about {
		kept[c] = e.endurance(c, seen.odds)
	}
	for _, c := range e.order {
		kept[c] = nil
		if e.odds[c] != nil {
			kept[c] = e.endurance(c, e.odds[c])
		}
	}
	return kept
}

// likeliest is the cheapest plan of configurations that were looked at which would keep
// the target if the plant carried just what is likeliest; those that it rests on are
// simulated.
func (e *expansion) likeliest(ctx context.Context, through int) (path, bool, error) {
	for {
		plan, ok := e.cheapest(e.orAbout(), 0, false, through)
		open := slices.IndexFunc(plan.configs, func(c int) bool { return e.last[c] == unknown })
		if open < 0 {
			return plan, ok, nil
		}
		if err := e.simulate(ctx, plan.configs[open]); err != nil {
			return path{}, false, err
		}
	}
}

// cheapest is the cheapest plan of some configurations that keeps the target by one of the
// capabilities that are as likely, if one does.
func (e *expansion) cheapest(kept []*endurance, likely int, sure bool, through int) (path, bool) {
	lasts, barred := make([]int, e.size), slices.Clone(e.barred)
	for c, k := range kept {
		if k == nil {
			barred[c] = true
			continue
		}
		lasts[c] = k.last(likely, sure)
	}
	p := e.program(lasts, barred)
	if last, plans := p.solve(); last >= through {
		return plans[0], true
	}
	return path{}, false
}

// endurance is how long a configuration lasts with all before it by each of the
// capabilities that are as likely.
type endurance struct {
	misses []capability.Sample // by year
	beyond []float64           // by year, how far the range of the share goes above it
	limit  float64
	most   int // the last year that whole runs say is kept
}

func (k *lasting) endurance(config int, odds capability.Odds) *endurance {
	out := &endurance{limit: k.target.MissShare + capability.Rounding, most: k.years - 1}
	for year := range odds {
		share := odds.Share(year)
		range90 := share.Interval()
		out.misses, out.beyond = append(out.misses, share), append(out.beyond, range90.High-range90.Estimate)
	}
	if k.last[config] != unknown && k.last[config] < k.lastKept(odds, capability.HighEnd) {
		out.most = k.last[config]
	}
	return out
}

// last returns the last year kept by one of the capabilities, the one found if it is 0,
// or for sure if that were the one found; no later than whole runs say that it is.
func (k *endurance) last(likely int, sure bool) int {
	for year, share := range k.misses {
		misses := share[likely]
		if sure {
			misses += k.beyond[year]
		}
		if misses > k.limit {
			return min(year-1, k.most)
		}
	}
	return k.most
}
