package capability

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/replicate"
	"loamcast/sim/threshold"
)

// Sign is what to watch so that an order need not rest on a forecast: it is placed
// as soon as the mean production of the last twelve months has passed a limit.
type Sign struct {
	Production float64 // kg dry per day, of cake
	// Late is the chance of missing the target before what is ordered is in use, by
	// the worst year, over all growths; ByGrowth that in each.
	Late     float64
	ByGrowth []float64
	// From and To are when the sign may be seen, for all that is known: on the first
	// day of the month after the last of the twelve. Never is the share of futures in
	// which it is not within the horizon.
	From, To calendar.Date
	Never    float64
}

const (
	// futures are drawn for each growth scenario.
	futures = 400
	// signSteps are the steps in which a sign is sought, and signReach how far below
	// what the plant carries.
	signSteps, signReach = 60, 0.4
)

// future is one way in which production may go.
type future struct {
	means []float64 // of the last twelve months, by month from the twelfth
	late  []float64 // the chance of being late before each quarter, and before the end
}

// outlook is what a plant faces in a stage of the horizon, for all that is known.
type outlook struct {
	Stage
	careful *threshold.Curve
}

// Futures are ways in which the production of a file may go.
type Futures struct {
	file *facilityfile.File
	now  float64  // mean production of the first year
	ways [][]path // by growth scenario
}

// path is how production goes in one of them.
type path struct {
	months []float64 // of the horizon
	years  []float64 // even production that is as heavy as that of each year
}

// FuturesOf draws them; now is the mean production of the first year, kg dry per day.
// They are drawn once for all questions about a study.
func FuturesOf(ctx context.Context, s *study.Study, now float64) (*Futures, error) {
	f := s.File
	type key struct{}
	ways, err := s.Once(key{}, func() (any, error) {
		weigh := scaleOf(f)
		return replicate.Run(ctx, len(f.Planning.Growths), s.Workers, func(_ context.Context, g int) ([]path, error) {
			var out []path
			for _, months := range Paths(f, g, futures) {
				out = append(out, path{months, weigh.inYears(months)})
			}
			return out, nil
		}, nil)
	})
	if err != nil {
		return nil, err
	}
	return &Futures{file: f, now: now, ways: ways.([][]path)}, nil
}

// Sign finds the highest mean production that leaves a lead time under every growth
// scenario, through the stages of the horizon; nil where no such sign comes early enough,
// or nothing is carried or everything in the end.
func (w *Futures) Sign(stages []Stage, lead calendar.Span) *Sign {
	f := w.file
	last := stages[len(stages)-1]
	if last.Curve == nil {
		return nil
	}
	most := f.Planning.Target.MissShare
	limit := max(most, 1e-3)
	var through []outlook
	for _, s := range stages {
		through = append(through, outlook{s, s.careful(limit)})
	}
	noise := last.noise() * math.Sqrt(calendar.MonthsPerYear)
	all := make([][]future, len(f.Planning.Growths))
	for g := range all {
		r := rand.New(rand.NewPCG(f.Seed, uint64(g)))
		for i := range w.ways[g] {
			all[g] = append(all[g], futureOf(&w.ways[g][i], through, noise, r))
		}
	}
	carries := last.careful(limit).Load(limit)
	for step := range signSteps {
		s := &Sign{Production: carries * (1 - signReach*float64(step)/signSteps)}
		if s.judge(f, lead, all); slices.Max(s.ByGrowth) <= most+Rounding {
			if s.Production <= w.now {
				return nil
			}
			s.dates(f, all)
			return s
		}
	}
	return nil
}

// futureOf makes the odds of a plant, and what is seen, of a path of production.
func futureOf(p *path, through []outlook, noise float64, r *rand.Rand) future {
	var f future
	seen := make([]float64, len(p.months))
	sum := 0.0
	for month, load := range p.months {
		seen[month] = load * (1 + noise*r.NormFloat64())
		sum += seen[month]
		if month >= calendar.MonthsPerYear {
			sum -= seen[month-calendar.MonthsPerYear]
		}
		if month >= calendar.MonthsPerYear-1 {
			f.means = append(f.means, sum/calendar.MonthsPerYear)
		}
	}
	worst, at := 0.0, 0
	f.late = append(f.late, worst)
	for _, load := range p.years {
		begun := through[at].begun(load)
		for q := range Quarters {
			for at+1 < len(through) && through[at+1].After <= float64(len(f.late)-1) {
				at++
				begun = through[at].begun(load)
			}
			worst = max(worst, begun[q])
			f.late = append(f.late, worst)
		}
	}
	return f
}

// begun is the chance that a year of a production is missed, and has begun to be by
// the end of each quarter.
func (o *outlook) begun(load float64) (by [Quarters]float64) {
	switch {
	case o.Never:
		for q := range by {
			by[q] = 1
		}
	case o.Curve != nil:
		share := o.careful.Share(load)
		by = o.Profile.begunBy(o.at(load))
		for q := range by {
			by[q] *= share
		}
	}
	return by
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

// seen is the day on which the record of a month of the horizon is there.
func seen(f *facilityfile.File, month int) calendar.Date { return f.Model.Start.AddMonths(month + 1) }

// judge sets the chances of being late.
func (s *Sign) judge(f *facilityfile.File, lead calendar.Span, all [][]future) {
	s.ByGrowth, s.Late = make([]float64, len(all)), 0
	for g, list := range all {
		for _, one := range list {
			before := f.Model.Years * Quarters
			if month := s.month(one); month >= 0 {
				before = QuartersBefore(f.Model.Start, f.Model.Years, lead.After(seen(f, month)))
			}
			s.ByGrowth[g] += one.late[before] / float64(len(list))
		}
		s.Late += f.Planning.Growths[g].Weight * s.ByGrowth[g]
	}
}

// dates sets when the sign may come.
func (s *Sign) dates(f *facilityfile.File, all [][]future) {
	var months, weights []float64
	for g, list := range all {
		for _, one := range list {
			month, w := s.month(one), f.Planning.Growths[g].Weight/float64(len(list))
			if month < 0 {
				s.Never += w
				month = f.Model.Years*calendar.MonthsPerYear - 1
			}
			months, weights = append(months, float64(month)), append(weights, w)
		}
	}
	stat.SortWeighted(months, weights)
	at := func(q float64) calendar.Date {
		return seen(f, int(stat.Quantile(q, stat.Empirical, months, weights)))
	}
	s.From, s.To = at((1-Sureness)/2), at((1+Sureness)/2)
}

// careful returns the curve that carries no more than the true one does, for all that
// is known, at a share of years missed; nil where there is none.
func (found *Capability) careful(share float64) *threshold.Curve {
	if found.Curve == nil {
		return nil
	}
	curves := slices.Clone(found.Likely)
	slices.SortFunc(curves, func(a, b *threshold.Curve) int { return cmp.Compare(a.Load(share), b.Load(share)) })
	return curves[int((1-Sureness)/2*float64(len(curves)))]
}

// noise is the relative deviation of a year's production from what it is in the
// mean.
func (found *Capability) noise() float64 {
	var off []float64
	for _, run := range found.Runs {
		for _, t := range run {
			if t.Sums != nil {
				off = append(off, t.over(t.Load))
			}
		}
	}
	return stat.StdDev(off, nil)
}
