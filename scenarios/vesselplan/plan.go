package vesselplan

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file.
type Options struct {
	// Replications of a year, at most; 0 for Enough times the fewest that can tell.
	Replications int
	UpTo         int // vessels; 0 for as many as there is room for
	// Wrong is the chance that a year's verdict is wrong, on either side, where the
	// true share of runs is clearly off the target; 0 for DefaultWrong.
	Wrong float64
	// Brief looks, in growth scenarios other than the one believed in most, at the
	// vessels installed only.
	Brief bool
}

// Enough times the fewest replications with which a year can be told to be kept
// decide all years but those near the target.
const Enough = 3.5

// DefaultWrong is the usual chance of error, per year and side.
const DefaultWrong = 0.1

// moreThanInstalled is how many vessels are tried beside those installed where
// the file does not say what there is room for.
const moreThanInstalled = 4

// Ask finds the staircase of a facility. See [question.Question] for its errors.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	if err := o.check(f); err != nil {
		return nil, err
	}
	if o.UpTo == 0 {
		o.UpTo = f.Planning.RoomFor
		if o.UpTo == f.Model.Vessels.Installed {
			o.UpTo += moreThanInstalled
		}
	}
	found, err := NewSearch(s, o.Replications, o.Wrong)
	if err != nil {
		return nil, err
	}
	p := planner{search: found.search, o: o, progress: setup.Part("searching")}
	a := p.answer(setup)
	for g := range f.Planning.Growths {
		growth, err := p.growth(ctx, g)
		if err != nil {
			return nil, err
		}
		a.Growths = append(a.Growths, growth)
	}
	a.Simulated = p.simulated
	a.Whole = p.total() * p.most * (p.years + f.Model.WarmUp)
	return a, nil
}

// check holds the options against the file.
func (o *Options) check(f *facilityfile.File) error {
	least := Least(f.Planning.Target, o.Wrong)
	if n := o.Replications; n != 0 && (n < least || n > facilityfile.MaxReplications) {
		return answer.WrongOption("replications", "%d: it must be from %d, the fewest that can tell whether the file's service target is kept, to %d",
			n, least, facilityfile.MaxReplications)
	}
	if n, installed := o.UpTo, f.Model.Vessels.Installed; n != 0 && (n < installed || n > mostVessels) {
		return answer.WrongOption("vessels", "%d: it must be from the %d installed to %d", n, installed, mostVessels)
	}
	return nil
}

// mostVessels keeps a typing error from running for hours.
const mostVessels = 1000

// Least returns the fewest replications of a year with which it can be told that
// the target is kept, with a chance of error; 0 for DefaultWrong.
func Least(t facilityfile.Target, wrong float64) int {
	if wrong == 0 {
		wrong = DefaultWrong
	}
	return testOf(t, wrong).Least()
}

// testOf returns the test that judges years against a target: from two fifths of
// the share that may miss to twelve fifths of it, either verdict will do.
func testOf(t facilityfile.Target, wrong float64) stats.ShareTest {
	return stats.ShareTest{Low: 0.4 * t.MissShare, High: min(2.4*t.MissShare, (1+t.MissShare)/2), WrongAbove: wrong, WrongBelow: wrong}
}

// planner goes through the cells.
type planner struct {
	*search
	o        Options
	progress func(done, total int)
	done     int       // cells
	loads    []float64 // by row: the growth factor at which the target is missed first, 0 if unknown
}

func (p *planner) answer(setup answer.Setup) *Answer {
	f := p.study.File
	a := &Answer{
		Basis: setup.Basis(f), Test: p.test, Most: p.most,
		Lead: f.Planning.VesselLead, Installed: f.Model.Vessels.Installed,
	}
	for _, c := range f.Model.Changes {
		a.Committed = a.Committed || c.Vessels > 0
	}
	for y := range f.Model.Years {
		a.Added = append(a.Added, vesselsBy(f.Model.Changes, f.Model.Start.AddYears(y+1)))
	}
	return a
}

// total is the number of cells.
func (p *planner) total() int {
	n := 0
	for g := range p.study.File.Planning.Growths {
		n += p.more(g) + 1
	}
	return n
}

// more is how many vessels are tried beside those installed.
func (p *planner) more(growth int) int {
	if p.o.Brief && growth != MainGrowth(&p.study.File.Planning) {
		return 0
	}
	return p.o.UpTo - p.study.File.Model.Vessels.Installed
}

// MainGrowth returns the place of the growth scenario that is believed in most,
// the first of several.
func MainGrowth(p *facilityfile.Planning) int {
	best := 0
	for i, g := range p.Growths {
		if g.Weight > p.Growths[best].Weight {
			best = i
		}
	}
	return best
}

// tell reports that n more cells are done.
func (p *planner) tell(n int) {
	p.done += n
	p.progress(p.done, p.total())
}

// growth finds the staircase of one growth scenario. It ends with the first
// number of vessels that keeps the target in every year.
func (p *planner) growth(ctx context.Context, g int) (Growth, error) {
	scenario := p.study.File.Planning.Growths[g]
	out := Growth{Scenario: answer.Scenario{Name: scenario.Name, Weight: scenario.Weight}}
	base, err := p.study.Plant(&study.Case{Growth: g})
	if err != nil {
		return out, err
	}
	for y := range p.years {
		need := base.StaticNeed(float64(y) + 0.5)
		out.StaticMean, out.StaticPeak = append(out.StaticMean, need.Average), append(out.StaticPeak, need.PeakMonth)
	}
	most := p.more(g)
	kept := -1
	var last *cell
	for extra := 0; extra <= most; extra++ {
		if last, err = p.cell(study.Case{Growth: g, Vessels: extra}); err != nil {
			return out, err
		}
		var r Row
		if guess := p.guess(scenario.Growth, extra); extra == 0 && g == MainGrowth(&p.study.File.Planning) {
			r, err = last.closely(ctx, guess)
		} else {
			r, err = last.row(ctx, kept, guess)
		}
		if err != nil {
			return out, err
		}
		out.static(&r, base, extra)
		p.learn(scenario.Growth, extra, r)
		kept = r.LastKept
		out.Rows = append(out.Rows, r)
		p.tell(1)
		if !r.Missed(p.years) {
			p.tell(most - extra)
			break
		}
	}
	return out, p.next(ctx, &out, g, last)
}

// next sets what the other stages can carry beside what comes in, in the last
// year that the most vessels keep.
func (p *planner) next(ctx context.Context, out *Growth, g int, last *cell) error {
	at := max(0, out.Rows[len(out.Rows)-1].LastKept)
	if err := last.extend(ctx, at, scouts); err != nil {
		return err
	}
	var months []plant.Month
	for _, t := range last.trials[at] {
		months = append(months, t.months...)
	}
	days := 0.0
	for i := range months {
		out.Fed += months[i].Feed.Dry
		days += months[i].Days
	}
	out.Fed /= days
	base, err := p.study.Plant(&study.Case{Growth: g, Vessels: last.Vessels})
	if err != nil {
		return err
	}
	out.Next = base.Capacities(base.Start.AddYears(at).AddMonths(calendar.MonthsPerYear/2), plant.NeedsOf(months))
	return nil
}

// learn notes the growth at which a number of vessels runs short.
func (p *planner) learn(g plant.Growth, extra int, r Row) {
	for len(p.loads) <= extra {
		p.loads = append(p.loads, 0)
	}
	if r.Missed(p.years) && p.loads[extra] == 0 {
		p.loads[extra] = g.Factor(float64(r.FirstMissed) + 0.5)
	}
}

// guess returns the year in which a number of vessels is expected to run short:
// as in another growth scenario, or in proportion to one vessel fewer; −1
// without either.
func (p *planner) guess(g plant.Growth, extra int) int {
	load := 0.0
	switch {
	case extra < len(p.loads) && p.loads[extra] > 0:
		load = p.loads[extra]
	case extra > 0 && extra-1 < len(p.loads) && p.loads[extra-1] > 0:
		n := float64(p.study.File.Model.Vessels.Installed + extra)
		load = p.loads[extra-1] * n / (n - 1)
	default:
		return -1
	}
	for y := range p.years {
		if g.Factor(float64(y)+0.5) >= load {
			return y
		}
	}
	return p.years
}
