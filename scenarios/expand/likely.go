package expand

import (
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
}

// doubt asks the program again for each capability that is as likely as that found. It
// is nil where whole runs judge, or no plan keeps the target in all of them. A plan with
// configurations that were not looked at might cost less still.
func (e *expansion) doubt(first *whole, p *Plan, through int) (*Doubt, error) {
	if !e.steady || through < e.years-1 {
		return nil, nil
	}
	barred := slices.Repeat([]bool{true}, e.size)
	kept := make([]*endurance, e.size)
	for _, c := range e.order {
		if barred[c] = e.barred[c] || e.odds[c] == nil; !barred[c] {
			kept[c] = e.endurance(c)
		}
	}
	cheapest := func(likely int, sure bool) (path, bool) {
		lasts := make([]int, e.size)
		for c, k := range kept {
			if k != nil {
				lasts[c] = k.last(likely, sure)
			}
		}
		p := program{lattice: e.lattice, years: e.years, cost: e.cost, lasts: lasts, barred: barred}
		kept, plans := p.solve()
		if kept < through {
			return path{}, false
		}
		return plans[0], true
	}
	likeliest, ok := cheapest(0, false)
	if !ok {
		return nil, nil
	}
	var costs []float64
	for likely := 1; likely <= capability.Resamples; likely++ {
		if plan, ok := cheapest(likely, true); ok {
			costs = append(costs, plan.cost)
		}
	}
	if len(costs) == 0 {
		return nil, nil
	}
	slices.Sort(costs)
	runs, err := stats.MeanInterval(first.present(first.replications()), capability.Sureness)
	if err != nil {
		return nil, err
	}
	at := p.Present.Estimate
	below := math.Hypot(runs.Estimate-runs.Low, max(0, first.cost-stats.SortedQuantile(costs, (1-capability.Sureness)/2)))
	above := math.Hypot(runs.High-runs.Estimate, max(0, stats.SortedQuantile(costs, (1+capability.Sureness)/2)-first.cost))
	return &Doubt{
		Range:   stats.Interval{Estimate: at, Low: at - below, High: at + above, Level: capability.Sureness},
		Caution: max(0, first.cost-likeliest.cost), Likeliest: e.stepsTaken(likeliest),
	}, nil
}

// endurance is how long a configuration lasts with all before it by each of the
// capabilities that are as likely.
type endurance struct {
	misses []capability.Sample // by year
	beyond []float64           // by year, how far the range of the share goes above it
	limit  float64
	most   int // the last year that whole runs say is kept
}

func (k *lasting) endurance(config int) *endurance {
	odds := k.odds[config]
	out := &endurance{limit: k.target.MissShare + capability.Rounding, most: k.years - 1}
	for year := range odds {
		share := odds.Share(year)
		range90 := share.Interval()
		out.misses, out.beyond = append(out.misses, share), append(out.beyond, range90.High-range90.Estimate)
	}
	if k.last[config] < k.lastKept(odds, capability.HighEnd) {
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
