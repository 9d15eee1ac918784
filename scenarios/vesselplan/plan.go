package vesselplan

import (
	"context"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file.
type Options struct {
	// Runs are the replications behind each share of runs, and the most of a year
	// that is simulated for itself; 0 for [capability.Replications].
	Runs int
	UpTo int // vessels; 0 for as many as there is room for
	// Wrong is the chance that a year's verdict is wrong, on either side; 0 for
	// DefaultWrong.
	Wrong float64
	// Look asks for a look before the answer.
	Look Look
}

// DefaultWrong is the usual chance of error, per year and side: that of the ranges
// beside shares and dates.
const DefaultWrong = (1 - capability.Sureness) / 2

// moreThanInstalled is how many vessels are tried beside those installed where
// the file does not say what there is room for.
const moreThanInstalled = 4

// everyGrowth names what holds over all growth scenarios.
const everyGrowth = "all by weight"

// Ask finds the staircase of a facility, and when to order. See
// [question.Question] for its errors.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	if err := o.complete(f); err != nil {
		return nil, err
	}
	found, err := newSearch(s, o.Runs, o.Wrong)
	if err != nil {
		return nil, err
	}
	p := planner{search: found, o: o, runs: o.Runs, progress: setup.Part("searching")}
	quick := o.Look.Runs > 0
	if quick {
		p.runs, p.search.most = o.Look.Runs, o.Look.Runs
		if !o.Look.More {
			p.o.UpTo = f.Model.Vessels.Installed
		}
	}
	a := p.answer(setup)
	a.Hauls = f.Model.Contracted()
	find := p.staircases
	if quick {
		find = p.look
	}
	if err := find(ctx, a); err != nil {
		return nil, err
	}
	a.Orders = a.orders(p.outlook, f)
	a.Batch = a.batch(f)
	if !quick {
		if a.Sign, err = p.sign(ctx, a); err != nil {
			return nil, err
		}
	}
	a.Simulated = p.simulated
	return a, nil
}

// staircases fills in what each number of vessels lasts for. What single years
// say of the vessels installed is checked by whole runs; where these miss earlier,
// because something fills from year to year, whole runs take their place.
func (p *planner) staircases(ctx context.Context, a *Answer) error {
	steady := capability.Steady(p.study.File)
	p.whole = steady.Leaning
	find := p.steadily
	if steady.Why != "" {
		a.Calendar, find = steady.Why, p.byCalendar
	}
	if err := find(ctx, a); err != nil {
		return err
	}
	if p.whole {
		return nil
	}
	agreed, err := p.confirm(ctx, a)
	if err != nil || agreed {
		return err
	}
	p.whole = true
	return p.again(ctx, a, capability.Contradicted)
}

// again answers by years of the calendar instead, and says why.
func (p *planner) again(ctx context.Context, a *Answer, why string) error {
	a.Calendar, a.Growths, a.All.Rows, a.Capability, a.Contract = why, nil, nil, nil, nil
	p.outlook, p.stages, p.demand = outlook{}, nil, nil
	return p.byCalendar(ctx, a)
}

// complete holds the options against the file, and sets those left out.
func (o *Options) complete(f *facilityfile.File) error {
	least := max(capability.Fewest, Least(f.Planning.Target, o.Wrong))
	if n := o.Runs; n != 0 && (n < least || n > facilityfile.MaxReplications) {
		return answer.WrongOption("replications", "%d: it must be from %d, the fewest that can tell whether the file's service target is kept, to %d",
			n, least, facilityfile.MaxReplications)
	}
	if n, installed := o.UpTo, f.Model.Vessels.Installed; n != 0 && (n < installed || n > mostVessels) {
		return answer.WrongOption("vessels", "%d: it must be from the %d installed to %d", n, installed, mostVessels)
	}
	if o.Runs == 0 {
		o.Runs = max(Usual(f.Planning.Target), least)
	}
	if o.Wrong == 0 {
		o.Wrong = DefaultWrong
	}
	if o.UpTo == 0 {
		o.UpTo = f.Planning.RoomFor
		if o.UpTo == f.Model.Vessels.Installed {
			o.UpTo += moreThanInstalled
		}
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
	return TestOf(t, wrong).Least()
}

// Usual returns how many runs are behind each share if nothing else is asked for: as many
// for every question, so that they tell the same of what a plant carries.
func Usual(t facilityfile.Target) int { return max(capability.Replications, Least(t, 0)) }

// TestOf returns the test that judges years against a target: from two fifths of
// the share that may miss to twelve fifths of it, either verdict will do.
func TestOf(t facilityfile.Target, wrong float64) stats.ShareTest {
	return stats.ShareTest{Low: 0.4 * t.MissShare, High: min(2.4*t.MissShare, (1+t.MissShare)/2), WrongAbove: wrong, WrongBelow: wrong}
}

// planner goes through the numbers of vessels.
type planner struct {
	*search
	o        Options
	runs     int
	progress func(done, total int)
	done     int

	outlook outlook             // of the vessels installed
	stages  []capability.Stage  // what they carry
	demand  []capability.Demand // by growth scenario; nil where years of the calendar are simulated
}

func (p *planner) answer(setup answer.Setup) *Answer {
	f := p.study.File
	a := &Answer{
		Basis: setup.Basis(f), Wrong: p.o.Wrong, Runs: p.runs,
		Look: p.o.Look, Lead: f.Planning.LeadOf(f.Model.Vessels.Extra), Installed: f.Model.Vessels.Installed,
	}
	for _, c := range f.Model.Changes {
		a.Committed = a.Committed || c.Vessels > 0
	}
	for y := range f.Model.Years {
		a.Added = append(a.Added, vesselsBy(f.Model.Changes, f.Model.Start.AddYears(y+1)))
	}
	a.classes(f, p.most())
	a.All.Scenario = answer.Scenario{Name: everyGrowth, Weight: 1}
	return a
}

// most is how many vessels are tried beside those installed.
func (p *planner) most() int { return p.o.UpTo - p.study.File.Model.Vessels.Installed }

// cells is the number of growth scenarios times that of vessels.
func (p *planner) cells() int { return len(p.study.File.Planning.Growths) * (p.most() + 1) }

// tell reports that n more of so many parts are done.
func (p *planner) tell(n, of int) {
	p.done += n
	p.progress(p.done, of)
}

// growth begins the staircase of a growth scenario with the handbook's estimate.
func (p *planner) growth(g int) (Growth, error) {
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
	return out, nil
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
