package vesselplan

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/capability"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
	"loamcast/sim/threshold"
)

// Sign is what to watch so that an order need not rest on a forecast: more vessels
// are ordered as soon as the mean production of the last twelve months has passed a
// limit.
type Sign struct {
	Production float64 // kg dry per day, of cake
	Now        float64 // the mean of the first year
	// Late is the chance of missing the target before the vessels are in use, by the
	// worst year, over all growths; ByGrowth that in each.
	Late     float64
	ByGrowth []float64
	// From and To are when the sign may come, for all that is known; Never is the
	// share of futures in which it does not within the horizon.
	From, To calendar.Date
	Never    float64
	// InUse is the part of the vessels in use in the fullest month of a year of that
	// production, 0…1.
	InUse float64
}

const (
	// futures are drawn for each growth scenario.
	futures = 400
	// signSteps are the steps in which a sign is sought, and signReach how far below
	// what the vessels carry.
	signSteps, signReach = 60, 0.4
)

// future is one way in which production may go.
type future struct {
	means []float64 // of the last twelve months, by month from the twelfth
	late  []float64 // the chance of being late before each quarter, and before the end
}

// sign finds the highest mean production that leaves the lead time under every
// growth; nil where the capability is not known or no sign comes early enough.
func (p *planner) sign(a *Answer) *Sign {
	rows := a.Planned().Rows
	if p.found.Capability == nil || p.found.Curve == nil || !rows[0].RunsShort(a.Horizon) || !a.Planned().VesselsHelp() {
		return nil
	}
	limit := max(p.target.MissShare, 1e-3)
	curve := p.found.careful(limit)
	noise := p.found.noise() * math.Sqrt(calendar.MonthsPerYear)
	all := make([][]future, len(a.Growths))
	for g := range all {
		r := rand.New(rand.NewPCG(p.study.File.Seed, uint64(g)))
		for _, path := range capability.Paths(p.study.File, g, futures) {
			all[g] = append(all[g], p.future(path, curve, noise, r))
		}
	}
	carries := curve.Load(limit)
	for step := range signSteps {
		s := &Sign{Production: carries * (1 - signReach*float64(step)/signSteps), Now: p.demand[0].Mean(0)}
		if s.judge(a, all); slices.Max(s.ByGrowth) <= p.target.MissShare+rounding {
			if s.Production <= s.Now {
				return nil
			}
			s.dates(a, all)
			s.InUse = p.found.inUse(s.Production)
			return s
		}
	}
	return nil
}

// future makes the odds of the vessels installed, and what is seen, of a path of
// production by month.
func (p *planner) future(path []float64, curve *threshold.Curve, noise float64, r *rand.Rand) future {
	var f future
	seen := make([]float64, len(path))
	sum := 0.0
	for month, load := range path {
		seen[month] = load * (1 + noise*r.NormFloat64())
		sum += seen[month]
		if month >= calendar.MonthsPerYear {
			sum -= seen[month-calendar.MonthsPerYear]
		}
		if month >= calendar.MonthsPerYear-1 {
			f.means = append(f.means, sum/calendar.MonthsPerYear)
		}
	}
	worst := 0.0
	f.late = append(f.late, worst)
	for months := range slices.Chunk(path, calendar.MonthsPerYear) {
		load := stat.Mean(months, nil)
		share := curve.Share(load)
		for _, part := range p.profile.begunBy(p.profile.at(load)) {
			worst = max(worst, share*part)
			f.late = append(f.late, worst)
		}
	}
	return f
}

// month returns the month of the horizon by whose end the sign is seen, −1 for
// never.
func (s *Sign) month(f future) int {
	at := slices.IndexFunc(f.means, func(mean float64) bool { return mean > s.Production })
	if at < 0 {
		return -1
	}
	return at + calendar.MonthsPerYear - 1
}

// judge sets the chances of being late.
func (s *Sign) judge(a *Answer, all [][]future) {
	s.ByGrowth, s.Late = make([]float64, len(all)), 0
	for g, list := range all {
		for _, f := range list {
			before := a.Horizon * quarters
			if month := s.month(f); month >= 0 {
				before = a.quarterBefore(a.Lead.After(a.Start.AddMonths(month + 1)))
			}
			s.ByGrowth[g] += f.late[before] / float64(len(list))
		}
		s.Late += a.Growths[g].Weight * s.ByGrowth[g]
	}
}

// dates sets when the sign may come.
func (s *Sign) dates(a *Answer, all [][]future) {
	var months, weights []float64
	for g, list := range all {
		for _, f := range list {
			month, w := s.month(f), a.Growths[g].Weight/float64(len(list))
			if month < 0 {
				s.Never += w
				month = a.Horizon * calendar.MonthsPerYear
			}
			months, weights = append(months, float64(month)), append(weights, w)
		}
	}
	stat.SortWeighted(months, weights)
	at := func(q float64) calendar.Date {
		return a.Start.AddMonths(int(stat.Quantile(q, stat.Empirical, months, weights)))
	}
	s.From, s.To = at((1-sureness)/2), at((1+sureness)/2)
}

// careful returns the curve that carries no more than the true one does, for all that
// is known, at a share of years missed.
func (c carried) careful(share float64) *threshold.Curve {
	curves := slices.Clone(c.Likely)
	slices.SortFunc(curves, func(a, b *threshold.Curve) int { return cmp.Compare(a.Load(share), b.Load(share)) })
	return curves[int((1-sureness)/2*float64(len(curves)))]
}

// noise is the relative deviation of a year's production from what it is in the
// mean.
func (c carried) noise() float64 {
	var off []float64
	for _, run := range c.Runs {
		for _, t := range run {
			cake, days := 0.0, 0.0
			for i := range t.Months {
				cake += t.Months[i].Feed.Dry - t.Months[i].Feed.FeedstockDry
				days += t.Months[i].Days
			}
			off = append(off, cake/days/t.Load)
		}
	}
	return stat.StdDev(off, nil)
}

// inUse is the part of the vessels in use in the fullest month of years whose
// production is near to some, the median.
func (c carried) inUse(load float64) float64 {
	var parts []float64
	months := c.nearest(load)
	for year := range slices.Chunk(months, calendar.MonthsPerYear) {
		most := 0.0
		for i := range year {
			most = max(most, year[i].Vessels.Mean/year[i].Vessels.Installed)
		}
		parts = append(parts, most)
	}
	return stats.Quantile(parts, 0.5)
}
