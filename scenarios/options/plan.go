package options

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"
	"sync"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/expand"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/scenarios/vesselplan"
)

// Options are what a caller may choose beside the file.
type Options struct {
	// Replications of each choice under each growth scenario, at most, 2 or more; 0
	// takes those of the file.
	Replications int
	// Discount, if not nil, takes the place of the file's discount rate, per year,
	// nominal or real as the file has it, also where that is uncertain.
	Discount *float64
}

const (
	aRound = 4 // replications
	// enough is the chance that ends the rounds. After the first, which is so short that a
	// lucky one may deceive, it takes more, and what the first choice costs more or less must
	// be known to a part of it.
	enough, enoughAtOnce = 0.95, 0.99
	knownTo              = 0.1
	level                = 0.95 // of intervals
)

// Ask compares the options of a file that has been made ready. A file without
// money or options is a *facilityfile.Error. Any other error carries the
// replication, the simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	if err := check(s.File, o); err != nil {
		return nil, err
	}
	c := newComparison(s, setup, o)
	if err := c.begin(ctx); err != nil {
		return nil, err
	}
	for {
		a, err := c.judge()
		if err != nil {
			return nil, err
		}
		r := c.next(a)
		if len(r.runs) == 0 {
			c.describe(a)
			return a, nil
		}
		if err := c.extend(ctx, r); err != nil {
			return nil, err
		}
	}
}

// next is the round that can tell more, if there is one: of all choices that are not out
// of it while the costs are not settled, under every growth scenario, and then of those in
// doubt that are judged by their runs.
func (c *comparison) next(a *Answer) round {
	c.out = c.out[:0]
	for i := range c.cases {
		c.out = append(c.out, a.outOfIt(i))
	}
	if n := c.compared(); n < c.most && (a.Chance < enough || n <= aRound && !a.plain()) {
		return c.whole(slices.DeleteFunc(c.all(), func(i int) bool { return c.out[i] || c.replications(i) > n }))
	}
	return c.single(slices.DeleteFunc(c.all(), func(i int) bool {
		return !a.Choices[i].Service.ByRuns || !a.inDoubt(i) && !a.yearInDoubt(i)
	}))
}

// check says what the file lacks.
func check(f *facilityfile.File, o Options) error {
	var lack string
	switch {
	case !f.Planning.Priced:
		lack = "it has no prices to compare options by; write a group money: with discount, labour, power, fuel, tipping and so on (`loamcast new` shows all of it)"
	case len(f.Planning.Options) == 0:
		lack = "it has no options to compare with the plant as it is; write options: [{name: two vessels, steps: [{name: vessels, date: 2034-01-01, vessels: 2, cost: 400000 USD, life: 20 year}]}]"
	case o.Replications == 0 && f.Replications < 2:
		lack = "options are compared by 2 replications or more; write replications: 20"
	default:
		return nil
	}
	return &facilityfile.Error{Err: fmt.Errorf("%s: %s", f.Path, units.InCurrency(lack, f.Currency))}
}

// comparison is the work under way.
type comparison struct {
	file     *facilityfile.File
	study    *study.Study
	setup    answer.Setup
	discount *float64
	// reference is at what prices accounts of the runs are kept.
	reference *costs.Reference
	most      int
	progress  func(done, planned int)

	mu   sync.Mutex // guards what follows, and calls to progress
	done int        // runs
	told bool       // that they are; before, it is the search that tells

	names []string
	cases [][]*study.Case // by choice and growth scenario
	runs  [][][]outcome   // by choice, growth scenario and replication
	// singles are by choice the replications after these, each under one growth scenario.
	singles [][]single
	// odds are by choice and growth scenario those of what the plant carries; nil where
	// that does not tell, and the runs are what is known.
	odds [][]capability.Odds
	// out marks the choices that are out of it, by the runs so far.
	out   []bool
	found int // the place of the plan found in the catalogue, −1 for none
	plan  expand.Plan
}

func newComparison(s *study.Study, setup answer.Setup, o Options) *comparison {
	c := &comparison{file: s.File, study: s, setup: setup, discount: o.Discount, reference: costs.NewReference(s.File, o.Discount), most: o.Replications, found: -1, progress: setup.Part("comparing")}
	if c.most == 0 {
		c.most = s.File.Replications
	}
	c.add("the plant as it is", nil) // asIs
	for _, option := range s.File.Planning.Options {
		c.add(option.Name, option.Steps)
	}
	return c
}

// single is a run under one growth scenario.
type single struct {
	growth int
	outcome
}

// begin makes the first runs of all choices, and finds what they carry. The runs of
// each choice go on beside the search for one more, and for what they carry.
func (c *comparison) begin(ctx context.Context) error {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	own := c.beside(ctx, c.all())
	err := c.search(ctx)
	c.tell()
	if err != nil {
		cancel()
		_ = own() // the search comes first, and so does its error
		return err
	}
	found := c.beside(ctx, c.all()[1+len(c.file.Planning.Options):])
	if err = c.carry(ctx); err != nil {
		cancel()
	}
	return cmp.Or(err, own(), found())
}

// beside begins a round of some choices, and returns how to wait for it.
func (c *comparison) beside(ctx context.Context, choices []int) (wait func() error) {
	r := c.whole(choices)
	runs := study.Beside(ctx, c.study, func(ctx context.Context) ([]outcome, error) {
		return study.Each(ctx, c.study, r.runs, c.reduce, c.report)
	})
	return func() error {
		outcomes, err := runs()
		if err == nil {
			c.keep(r, outcomes)
		}
		return err
	}
}

// search adds the plan that the question expand finds in the catalogue, if the file
// has one and it builds anything.
func (c *comparison) search(ctx context.Context) error {
	if len(c.file.Planning.Catalogue) == 0 {
		return nil
	}
	found, err := expand.Cheapest(ctx, c.study, c.setup, expand.Options{Discount: c.discount})
	if err != nil {
		return err
	}
	if len(found.Steps) == 0 {
		return nil // that is the plant as it is
	}
	c.found, c.plan = len(c.names), found
	c.add("best of the catalogue", found.Dated)
	return nil
}

// carry finds what the plant carries with the steps of each choice that have dates.
func (c *comparison) carry(ctx context.Context) error {
	c.odds = make([][]capability.Odds, len(c.cases))
	if capability.Steady(c.file).Why != "" {
		return nil
	}
	states, err := capability.StatesOf(ctx, c.study, vesselplan.Usual(c.file.Planning.Target))
	if err != nil {
		return err
	}
	for i, cases := range c.cases {
		var changes []plant.Change
		for _, step := range cases[0].Steps {
			changes = append(changes, step.Change)
		}
		if slices.ContainsFunc(changes, func(c plant.Change) bool { return c.Trigger.Waits() }) {
			continue
		}
		if c.odds[i], err = states.Odds(ctx, changes); err != nil {
			return err
		}
	}
	return nil
}

// asIs is the place of the plant as it is among the choices.
const asIs = 0

// add makes the cases of a choice.
func (c *comparison) add(name string, steps []facilityfile.Step) {
	steps = c.file.Planning.ToldApart(steps)
	var cases []*study.Case
	for g := range c.file.Planning.Growths {
		cases = append(cases, &study.Case{Growth: g, Steps: steps})
	}
	c.names = append(c.names, name)
	c.cases = append(c.cases, cases)
	c.runs = append(c.runs, make([][]outcome, len(cases)))
	c.singles = append(c.singles, nil)
}

// round is what is run at a time.
type round struct {
	runs   []study.Run
	places []place // of the runs
}

// place is where an outcome belongs.
type place struct {
	choice, growth int
	single         bool
}

func (r *round) add(run study.Run, to place) {
	r.runs, r.places = append(r.runs, run), append(r.places, to)
}

// whole is a round of some choices under every growth scenario.
func (c *comparison) whole(choices []int) round {
	var out round
	for _, i := range choices {
		n := c.replications(i)
		for rep := n; rep < min(n+aRound, c.most); rep++ {
			for g, cs := range c.cases[i] {
				out.add(study.Run{Case: cs, Replication: rep}, place{choice: i, growth: g})
			}
		}
	}
	return out
}

// single is a round of further replications of some choices, each under one growth scenario:
// who asks how often a choice misses learns more of other luck than of the same luck under
// other growth.
func (c *comparison) single(choices []int) round {
	var out round
	growths := c.file.Planning.ShareOut(c.most)
	for _, i := range choices {
		n := c.judged(i)
		for rep := n; rep < min(n+aRound, c.most); rep++ {
			out.add(study.Run{Case: c.cases[i][growths[rep]], Replication: rep}, place{i, growths[rep], true})
		}
	}
	return out
}

// extend runs a round and keeps its outcomes.
func (c *comparison) extend(ctx context.Context, r round) error {
	outcomes, err := study.Each(ctx, c.study, r.runs, c.reduce, c.report)
	if err == nil {
		c.keep(r, outcomes)
	}
	return err
}

// keep keeps the outcomes of a round. A replication under every growth scenario takes the
// place of that under one.
func (c *comparison) keep(r round, outcomes []outcome) {
	for n, out := range outcomes {
		at := r.places[n]
		if at.single {
			c.singles[at.choice] = append(c.singles[at.choice], single{at.growth, out})
			continue
		}
		to := &c.runs[at.choice][at.growth]
		*to = append(*to, out)
		if at.growth == 0 && len(c.singles[at.choice]) > 0 {
			c.singles[at.choice] = c.singles[at.choice][1:]
		}
	}
}

// all lists the choices.
func (c *comparison) all() []int {
	out := make([]int, len(c.cases))
	for i := range out {
		out[i] = i
	}
	return out
}

// replications is how many of a choice have been run under each growth scenario.
func (c *comparison) replications(choice int) int { return len(c.runs[choice][0]) }

// judged is how many tell how often it misses: with those under one growth scenario.
func (c *comparison) judged(choice int) int { return c.replications(choice) + len(c.singles[choice]) }

// under returns all outcomes of a choice under a growth scenario.
func (c *comparison) under(choice, growth int) []outcome {
	out := slices.Clip(c.runs[choice][growth])
	for _, s := range c.singles[choice] {
		if s.growth == growth {
			out = append(out, s.outcome)
		}
	}
	return out
}

// compared is how many replications all choices have in common that are not out of it.
func (c *comparison) compared() int {
	least := math.MaxInt
	for i := range c.cases {
		if !c.isOut(i) {
			least = min(least, c.replications(i))
		}
	}
	return least
}

// isOut reports whether a choice is out of it, by the runs so far.
func (c *comparison) isOut(choice int) bool { return choice < len(c.out) && c.out[choice] }

// total counts the runs of all choices.
func (c *comparison) total() int {
	n := 0
	for i := range c.cases {
		n += c.replications(i)*len(c.cases[i]) + len(c.singles[i])
	}
	return n
}

// tell begins to tell of runs.
func (c *comparison) tell() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.told = true
}

// report counts a run.
func (c *comparison) report(_, _ int) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	if c.told {
		c.progress(c.done, c.most*len(c.cases)*len(c.cases[0]))
	}
}
