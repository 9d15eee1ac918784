package vesselplan

import (
	"context"
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// steady answers by what the plant carries with each number of vessels.
type steady struct {
	*planner
	from  int               // the first year that depends on its production alone
	early []capability.Odds // of the years before, with the vessels installed, by growth scenario
}

// carried is what a number of vessels carries.
type carried struct{ *capability.Capability }

// steadily fills in the answer. Years before one are simulated for themselves; if the
// target is missed in them, all are.
func (p *planner) steadily(ctx context.Context, a *Answer, from int) error {
	s := steady{planner: p, from: from}
	if missed, err := s.before(ctx); err != nil {
		return err
	} else if missed {
		return p.again(ctx, a, "the target is missed before the changes of the file are in force")
	}
	growths := p.study.File.Planning.Growths
	for g := range growths {
		s.demand = append(s.demand, capability.DemandOf(p.study.File, g))
		growth, err := p.growth(g)
		if err != nil {
			return err
		}
		a.Growths = append(a.Growths, growth)
	}
	found, err := capability.Find(ctx, p.study, study.Case{}, p.runs)
	if err != nil {
		return err
	}
	first := carried{found}
	main := a.Main()
	a.All.StaticMean, a.All.StaticPeak = main.StaticMean, main.StaticPeak
	at, carries := first, 1.0
	for extra := range p.most() + 1 {
		n := float64(p.study.File.Model.Vessels.Installed + extra)
		if extra > 0 && found.Curve != nil {
			if at, carries, err = s.more(ctx, first, extra, carries*n/(n-1)); err != nil {
				return err
			}
		}
		p.simulated += at.Simulated
		if err := s.rows(a, at, extra); err != nil {
			return err
		}
		p.tell(1, p.most()+1)
		if s.lasts(a, extra) {
			p.tell(p.most()-extra, p.most()+1)
			break
		}
	}
	return nil
}

// before simulates the years before the plant is steady and reports whether one of
// them is missed by more runs than the target allows.
func (s *steady) before(ctx context.Context) (missed bool, err error) {
	if s.from == 0 {
		return false, nil
	}
	for g := range s.study.File.Planning.Growths {
		c, err := s.cell(study.Case{Growth: g})
		if err != nil {
			return false, err
		}
		if err := c.cover(ctx, 0, s.from, s.runs); err != nil {
			return false, err
		}
		o, err := c.oddsOf(0, s.from, s.runs)
		if err != nil {
			return false, err
		}
		s.early = append(s.early, o[:s.from])
		missed = missed || capability.ShortIn(o[:s.from].Late(), s.target.MissShare, capability.Estimate) < s.from*quarters
	}
	return missed, nil
}

// more tries so many more vessels, expected to carry so many times as much as
// those installed, and returns how many times it is.
func (s *steady) more(ctx context.Context, first carried, extra int, expected float64) (carried, float64, error) {
	c, err := first.Beside(ctx, s.study, study.Case{Vessels: extra}, expected)
	if err != nil || c.Curve == nil {
		return carried{c}, expected, err
	}
	return carried{c}, math.Exp(c.Curve.Mean - first.Curve.Mean), nil
}

// rows adds the row of a number of vessels to every growth scenario that needs it.
func (s *steady) rows(a *Answer, at carried, extra int) error {
	var of []capability.Odds
	var weights []float64
	for g := range a.Growths {
		o := at.Odds(s.demand[g])
		if s.early != nil {
			copy(o, s.early[g])
		}
		of, weights = append(of, o), append(weights, a.Growths[g].Weight)
		if n := len(a.Growths[g].Rows); n < extra || n > 0 && a.lasts(&a.Growths[g].Rows[n-1]) {
			continue
		}
		if err := s.row(a, &a.Growths[g], o, at, extra, g); err != nil {
			return err
		}
	}
	all := capability.Mixed(of, weights)
	if n := len(a.All.Rows); n == extra && !(n > 0 && a.lasts(&a.All.Rows[n-1])) {
		if err := s.row(a, &a.All, all, at, extra, MainGrowth(&s.study.File.Planning)); err != nil {
			return err
		}
	}
	if extra == 0 {
		s.outlook = outlook{all: all, byGrowth: of, lost: s.lost(at)}
		s.found = at
	}
	a.Capability = append(a.Capability, at.told(a.Installed+extra, s.target.MissShare))
	return nil
}

// lasts reports whether a number of vessels is enough in all growth scenarios.
func (s *steady) lasts(a *Answer, extra int) bool {
	for g := range a.Growths {
		rows := a.Growths[g].Rows
		if !a.lasts(&rows[len(rows)-1]) {
			return false
		}
	}
	return a.lasts(&a.All.Rows[len(a.All.Rows)-1])
}

// lost is what is expected to leave untreated in each quarter, kg dry, over all
// growths.
func (s *steady) lost(at carried) []float64 {
	out := make([]float64, s.years*quarters)
	for g, d := range s.demand {
		for quarter, kg := range at.Lost(d) {
			out[quarter] += s.study.File.Planning.Growths[g].Weight * kg
		}
	}
	return out
}

// row makes a row from its odds.
func (s *steady) row(a *Answer, to *Growth, o capability.Odds, at carried, extra, growth int) error {
	r := Row{Vessels: a.Installed + extra}
	r.judge(o, s.target.MissShare, a.Wrong)
	s.date(&r)
	p, err := s.study.Plant(&study.Case{Growth: growth})
	if err != nil {
		return err
	}
	to.static(&r, p, extra)
	if r.RunsShort(s.years) {
		short := at.near(s.target.MissShare)
		r.Limit = limit(short, s.target)
		r.Stay, r.CakePerLoad = s.loads(short)
	}
	to.Rows = append(to.Rows, r)
	to.Fed = s.demand[growth].Mean(max(0, r.LastKept))
	p, err = s.study.Plant(&study.Case{Growth: growth, Vessels: extra})
	if err != nil {
		return err
	}
	if months := at.nearest(to.Fed); months != nil {
		to.Next = p.Capacities(p.Start.AddYears(max(0, r.LastKept)).AddMonths(calendar.MonthsPerYear/2), plant.NeedsOf(months))
	}
	return nil
}

// near returns the years in which the target is about to be missed, or is.
func (c carried) near(share float64) [][]plant.Month {
	var out [][]plant.Month
	for _, run := range c.Runs {
		for _, t := range run {
			if c.Curve == nil || t.Load >= c.Curve.Load(share) {
				out = append(out, t.Months)
			}
		}
	}
	return out
}

// nearest returns the months of the year of each run whose production is nearest
// to some.
func (c carried) nearest(load float64) []plant.Month {
	var out []plant.Month
	for _, run := range c.Runs {
		best := 0
		for i, t := range run {
			if math.Abs(t.Load-load) < math.Abs(run[best].Load-load) {
				best = i
			}
		}
		out = append(out, run[best].Months...)
	}
	return out
}

// told is what the answer says of what is carried.
func (c carried) told(vessels int, share float64) Capability {
	out := Capability{Vessels: vessels}
	at := func(share float64) capability.Sample {
		if c.Likely == nil {
			if c.Never {
				return capability.Sample{0}
			}
			return capability.Sample{math.Inf(1)}
		}
		var s capability.Sample
		for _, curve := range c.Likely {
			s = append(s, curve.Load(share))
		}
		return s
	}
	out.AtTarget, out.Half = at(max(share, 1e-3)).Interval(), at(0.5).Interval()
	return out
}
