package expand

import (
	"context"
	"fmt"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/money"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file.
type Options struct {
	// Growth names a growth scenario to look at alone; empty for all by weight.
	Growth string
	// Plans is how many are shown, 0 for DefaultPlans.
	Plans int
	// Discount, if not nil, takes the place of the file's discount rate, per year,
	// nominal or real as the file has it, also where that is uncertain.
	Discount *float64
	// Replications of a whole plan, at most; at least [Least], 0 for
	// DefaultReplications or as many.
	Replications int
}

const (
	// DefaultPlans is the best and three that come next.
	DefaultPlans = 4
	// mostContenders for the first place are compared, however many are shown.
	mostContenders = 4
	// DefaultReplications of a whole plan leave open only differences that hardly
	// matter.
	DefaultReplications = 60
	// mostConfigurations keeps a long catalogue from running for hours.
	mostConfigurations = 4000
	// mostSimulated configurations are looked at for what they carry; what goes beyond
	// is judged by the runs of whole plans only.
	mostSimulated = 60
)

// Ask searches the catalogue of a study's file. A file without money or
// catalogue, or without the growth scenario asked for, is a *facilityfile.Error,
// and too few replications are an *answer.OptionError. Any other error carries the
// replication, the simulated date and the event, or is ctx's. The number of workers
// has no influence on the answer. What was found once for a study is not sought again.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f, err := find(ctx, s, setup, o)
	if err != nil {
		return nil, err
	}
	type key struct{ *found }
	told, err := s.Once(key{f}, func() (any, error) { return f.told(ctx, setup) })
	if err != nil {
		return nil, err
	}
	a := *told.(*Answer)
	a.Basis = setup.Basis(s.File)
	return &a, nil
}

// Cheapest returns the first plan that Ask would tell, its steps and what it costs, without
// the runs that tell more of it.
func Cheapest(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (Plan, error) {
	f, err := find(ctx, s, setup, o)
	if err != nil {
		return Plan{}, err
	}
	first := f.chosen.plans[0]
	p := Plan{Steps: f.stepsTaken(first.path), Dated: first.steps, Replications: first.told}
	return p, p.costs(first, first)
}

// found is what a search has found: plans, and the last year that they keep.
type found struct {
	*expansion
	chosen  *choice
	through int
}

// find searches the catalogue.
func find(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*found, error) {
	if err := o.complete(s.File.Planning.Target); err != nil {
		return nil, err
	}
	type key struct {
		Options
		discount float64
	}
	k := key{Options: o}
	if o.Discount != nil {
		k.Options.Discount, k.discount = nil, *o.Discount+1 // 0 is none
	}
	f, err := s.Once(k, func() (any, error) {
		e, err := newExpansion(ctx, s, setup, o)
		if err != nil {
			return nil, err
		}
		if err := e.screen(ctx); err != nil {
			return nil, err
		}
		chosen, through, err := e.settle(ctx)
		if err != nil {
			return nil, err
		}
		return &found{e, chosen, through}, e.costed(ctx, chosen.plans[0])
	})
	if err != nil {
		return nil, err
	}
	return f.(*found), nil
}

// costed settles of which runs it is told what the first plan costs, whoever asks and however
// many more are made of it for other plans: all that check it.
func (e *expansion) costed(ctx context.Context, first *whole) error {
	if e.steady {
		if err := e.extend(ctx, []*whole{first}, min(capability.Checks, e.most)); err != nil {
			return err
		}
	}
	first.told = first.replications()
	return nil
}

// told is the answer: what was found, and what more there is to say of the first plan.
func (f *found) told(ctx context.Context, setup answer.Setup) (*Answer, error) {
	plans, err := f.others(ctx, f.chosen, f.through)
	if err != nil {
		return nil, err
	}
	a, err := f.answer(ctx, plans, f.through, setup)
	if err != nil {
		return nil, err
	}
	first := f.chosen.plans[0]
	if a.Doubt, err = f.doubt(ctx, first, &a.Plans[0], f.through, a.Indifference); err != nil {
		return nil, err
	}
	if a.Doubt != nil {
		a.Chance *= a.Doubt.Stays
	}
	if a.Adaptive, err = f.adapt(ctx, first, f.through); err != nil {
		return nil, err
	}
	a.YearsSimulated = f.states.Simulated() + f.wholeYears()
	return a, nil
}

// settle proposes the plans that may be the cheapest and compares them, until none of
// them misses a year after all. It returns them with the last year that they keep.
func (e *expansion) settle(ctx context.Context) (*choice, int, error) {
	for {
		through, paths, err := e.propose(ctx, e.contenders)
		if err != nil {
			return nil, 0, err
		}
		chosen, missed, err := e.compare(ctx, through, paths)
		if missed == nil || err != nil {
			return chosen, through, err
		}
		e.learn(missed.config, missed.year-1)
	}
}

// check says what the file lacks.
func check(f *facilityfile.File) error {
	lack := ""
	switch {
	case !f.Planning.Priced:
		lack = "it has no prices to choose by; write a group money: with discount, labour, power, tipping and so on (`loamcast new` shows all of it)"
	case len(f.Planning.Catalogue) == 0:
		lack = "it has no catalogue of what may be built; write catalogue: [{name: two vessels, vessels: 2, lead_time: 14 month, cost: 400000 USD, life: 20 year, most: 3}]"
	default:
		return nil
	}
	return &facilityfile.Error{Err: fmt.Errorf("%s: %s", f.Path, units.InCurrency(lack, f.Currency))}
}

// expansion is the work under way.
type expansion struct {
	*lasting
	file     *facilityfile.File
	study    *study.Study
	most     int // replications of a plan
	shown    int // plans
	tell     func(done, planned int)
	discount *float64
	steady   bool            // what configurations carry tells every year
	byRuns   stats.ShareTest // that judges years where it does not
	prices   money.Prices
	running  float64     // present worth of running the plant as it is, USD, as its first year shows
	cost     [][]float64 // by step and year
	barred   []bool      // configurations beyond the room for vessels
	// contracted says that the file has contracts, in force or to be had.
	contracted bool
	hauling    map[int]hauledCost

	wholes []*whole // plans simulated
}

func newExpansion(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*expansion, error) {
	f := s.File
	if err := check(f); err != nil {
		return nil, err
	}
	growths, err := growthsOf(f, o.Growth)
	if err != nil {
		return nil, err
	}
	l, err := latticeOf(f)
	if err != nil {
		return nil, err
	}
	states, err := capability.StatesOf(ctx, s, vesselplan.Usual(f.Planning.Target))
	if err != nil {
		return nil, err
	}
	known, err := newLasting(l, s, states, growths)
	if err != nil {
		return nil, err
	}
	e := &expansion{
		lasting: known, file: f, study: s, most: o.Replications, shown: o.Plans, discount: o.Discount, tell: setup.Part("searching"),
		contracted: len(f.Planning.Economy.Contracts) > 0, hauling: map[int]hauledCost{},
		steady: capability.Steady(f).Why == "", byRuns: vesselplan.TestOf(f.Planning.Target, wrong),
	}
	e.barred = e.beyondRoom()
	return e, nil
}

// wrong is about the chance that the verdict on a year is wrong, on either side.
const wrong = (1 - capability.Sureness) / 2

// complete sets what was not asked for, and says what cannot be.
func (o *Options) complete(t facilityfile.Target) error {
	least := vesselplan.Least(t, wrong)
	switch n := o.Replications; {
	case n == 0:
		o.Replications = max(DefaultReplications, least)
	case n < least || n > facilityfile.MaxReplications:
		return answer.WrongOption("replications", "%d: it must be from %d, the fewest that can tell whether the file's service target is kept, to %d", n, least, facilityfile.MaxReplications)
	}
	if o.Plans == 0 {
		o.Plans = DefaultPlans
	}
	return nil
}

// latticeOf numbers the configurations of a catalogue.
func latticeOf(f *facilityfile.File) (*lattice, error) {
	size := 1
	var most []int
	for _, s := range f.Planning.Catalogue {
		most = append(most, s.Most)
		if size *= s.Most + 1; size > mostConfigurations {
			return nil, &facilityfile.Error{Err: fmt.Errorf("%s: the steps of the catalogue can be put together in more than %d ways; leave some out, or lower their most", f.Path, mostConfigurations)}
		}
	}
	return newLattice(most), nil
}

// beyondRoom marks the configurations with more vessels of a class than there is room
// for. Where the file does not say what there is room for, the room is what is there
// after its own changes, and more vessels in the catalogue mean that it is more.
func (e *expansion) beyondRoom() []bool {
	m := &e.file.Model
	out := make([]bool, e.size)
	for class, own := range m.Vessels.VesselsWith(m.Changes) {
		room := e.file.Planning.RoomOf(class)
		if room <= own {
			continue
		}
		for c := range out {
			vessels := own
			for i, s := range e.steps {
				if s.Class == class {
					vessels += e.count(c, i) * s.Vessels
				}
			}
			out[c] = out[c] || vessels > room
		}
	}
	return out
}
