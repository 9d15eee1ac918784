package vesselplan

import (
	"context"
	"math"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// steady answers by what the plant carries with each number of vessels.
type steady struct {
	*planner
	states *capability.States
}

// carried is what a number of vessels carries.
type carried struct{ *capability.Capability }

// steadily fills in the answer.
func (p *planner) steadily(ctx context.Context, a *Answer) error {
	states, err := capability.StatesOf(ctx, p.study, p.runs)
	if err != nil {
		return err
	}
	s := steady{planner: p, states: states}
	for g := range p.study.File.Planning.Growths {
		s.demand = append(s.demand, states.Demand(g))
		growth, err := p.growth(g)
		if err != nil {
			return err
		}
		a.Growths = append(a.Growths, growth)
	}
	main := a.Main()
	a.All.StaticMean, a.All.StaticPeak = main.StaticMean, main.StaticPeak
	vain, err := s.inVain(ctx)
	if err != nil {
		return err
	}
	if !vain {
		if err := s.ahead(ctx); err != nil {
			return err
		}
	}
	for extra := range p.most() + 1 {
		if vain && extra > 0 && extra < p.most() {
			p.tell(1, p.most()+1)
			continue
		}
		if err := s.rows(ctx, a, extra); err != nil {
			return err
		}
		p.tell(1, p.most()+1)
		if s.lasts(a, extra) {
			p.tell(p.most()-extra, p.most()+1)
			break
		}
	}
	p.simulated += states.Simulated()
	return nil
}

// ahead finds what the numbers of vessels carry that will be asked for if each carries
// as much as the first, all of them side by side. If they carry less, more are needed.
func (s *steady) ahead(ctx context.Context) error {
	if s.states.Main().Curve == nil {
		return nil
	}
	var sets [][]plant.Change
	for extra := 1; extra <= s.most() && !s.enough(extra-1); extra++ {
		sets = append(sets, s.changes(extra))
	}
	return s.states.Ahead(ctx, sets)
}

// inVain reports whether even the most vessels miss the target in the first year, where
// with those installed some runs miss it whatever comes in. What lies between is then not
// looked at.
func (s *steady) inVain(ctx context.Context) (bool, error) {
	if s.most() == 0 || s.states.Main().Background()[0] == 0 {
		return false, nil
	}
	_, byGrowth, err := s.with(ctx, s.most())
	if err != nil {
		return false, err
	}
	return s.states.Mix(byGrowth).Share(0)[0] > s.target.MissShare+capability.Rounding, nil
}

// enough reports whether so many more vessels would keep the target in every year if each
// carried as much as the first.
func (s *steady) enough(extra int) bool {
	m := &s.study.File.Model
	there := m.Worth(m.Vessels.VesselsWith(m.Changes))
	curve := s.states.Main().Curve.Scaled(m.Worth(m.Vessels.VesselsWith(s.changes(extra))) / there)
	for _, d := range s.demand {
		for year := range d {
			if d.Share(curve, year) > s.target.MissShare {
				return false
			}
		}
	}
	return true
}

// changes are the file's own and so many more vessels from the first day on.
func (s *steady) changes(extra int) []plant.Change {
	return slices.Concat(s.study.File.Model.Changes, s.more(extra))
}

func (s *steady) more(extra int) []plant.Change {
	if extra == 0 || s.states.Main().Curve == nil {
		return nil
	}
	var list []plant.Change
	for _, class := range s.study.File.NextClasses(extra) {
		if n := len(list); n == 0 || list[n-1].Class != class {
			list = append(list, plant.Change{Class: class, Date: s.study.File.Model.Start})
		}
		last := &list[len(list)-1]
		last.Vessels++
		if s.study.File.Model.Yard.Places > 0 {
			last.Places++
		}
	}
	return list
}

// with returns what is carried, in the end, with so many more vessels from the first
// day on, and the odds under each growth scenario.
func (s *steady) with(ctx context.Context, extra int) (carried, []capability.Odds, error) {
	found, err := s.states.With(ctx, s.changes(extra))
	if err != nil {
		return carried{}, nil, err
	}
	odds, err := s.states.Odds(ctx, s.more(extra))
	return carried{found}, odds, err
}

// rows adds the row of a number of vessels to every growth scenario that needs it.
func (s *steady) rows(ctx context.Context, a *Answer, extra int) error {
	at, byGrowth, err := s.with(ctx, extra)
	if err != nil {
		return err
	}
	for g := range a.Growths {
		if n := len(a.Growths[g].Rows); n > 0 && a.lasts(&a.Growths[g].Rows[n-1]) {
			continue
		}
		if err := s.row(a, &a.Growths[g], byGrowth[g], at, extra, g); err != nil {
			return err
		}
	}
	all := s.states.Mix(byGrowth)
	if n := len(a.All.Rows); n == 0 || !a.lasts(&a.All.Rows[n-1]) {
		if err := s.row(a, &a.All, all, at, extra, MainGrowth(&s.study.File.Planning)); err != nil {
			return err
		}
	}
	if extra == 0 {
		s.outlook = outlook{all: all, byGrowth: byGrowth, lost: s.lost(at)}
		if s.stages, err = s.states.Stages(ctx, nil); err != nil {
			return err
		}
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
	to.static(&r, p, s.study.File.NextClasses(extra))
	if r.RunsShort(s.years) {
		short := at.Near(s.target.MissShare)
		r.Limit = capability.Shortage(short, s.target)
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

// nearest returns the year of each run whose production is nearest to some, each as one
// month: see [capability.Sums.Sum].
func (c carried) nearest(load float64) []plant.Month {
	var out []plant.Month
	for _, run := range c.Runs {
		best := 0
		for i, t := range run {
			if math.Abs(t.Load-load) < math.Abs(run[best].Load-load) {
				best = i
			}
		}
		if run[best].Sums != nil {
			out = append(out, run[best].Sum())
		}
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
	out.AtTarget, out.Half, out.Background = at(max(share, 1e-3)).Interval(), at(0.5).Interval(), c.Background().Interval()
	return out
}
