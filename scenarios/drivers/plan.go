package drivers

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/scenarios/vesselplan"
	"loamcast/sim/sensitivity"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Output Output
	// Trajectories of the screening, 2 or more; 0 for DefaultTrajectories.
	Trajectories int
	// Replications of each point of the screening; 0 for DefaultReplications.
	Replications int
	// Rows of the design for shares of the variance; 0 to leave them out.
	Rows int
	// Option is the name of the option of the file whose output is asked about, or Best;
	// empty for the plant as it is. It counts with ChipsBought and PresentWorth.
	Option string
}

// Sizes of the designs. Ten trajectories are what is usual at least; rows are few,
// since each is two runs and one more for every input.
const (
	DefaultTrajectories = 10
	DefaultReplications = 2
	DefaultRows         = 100
)

// levels is the number of quantiles at which the screening puts an input, and of
// sets of random numbers that it meets. With eight an input goes from its 6 % to its 94 %
// quantile, and a growth scenario of a weight of 1/8 or more is met.
const levels = 8

// streams is how many sets of random numbers a row of the shares' design may meet:
// so many that no two rows have the same.
const streams = 1 << 30

// Ask finds what moves an output. An error about what the file lacks is a
// *facilityfile.Error; any other carries the replication, the simulated date and
// the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	p := planner{o: o, inputs: newInputs(f, o.Output), study: s, progress: setup.Part("simulating")}
	p.o.Trajectories = cmp.Or(o.Trajectories, DefaultTrajectories)
	p.o.Replications = cmp.Or(o.Replications, DefaultReplications)
	if err := p.check(f); err != nil {
		return nil, &facilityfile.Error{Err: fmt.Errorf("%s: %w", f.Path, err)}
	}
	of, err := tested(ctx, s, setup, o)
	if err != nil {
		return nil, err
	}
	p.inputs.steps = of.steps
	a := p.answer(setup)
	a.Of = of
	if o.Output == VesselYear {
		if err := p.byWhatIsCarried(ctx, a); err != nil {
			return nil, err
		}
	}
	if err := p.orByRuns(a, func() error { return p.find(ctx, a) }); err != nil {
		return nil, err
	}
	p.sort(a)
	return a, nil
}

// find finds the effects and, if asked for, the shares.
func (p *planner) find(ctx context.Context, a *Answer) error {
	if err := p.screen(ctx, a); err != nil || p.o.Rows == 0 {
		return err
	}
	return p.share(ctx, a)
}

// orByRuns finds once more, by runs of the whole horizon, what cannot be found by what
// the plant carries after all.
func (p *planner) orByRuns(a *Answer, find func() error) error {
	err := find()
	if p.yearly == nil || !errors.Is(err, capability.ErrApart) {
		return err
	}
	p.yearly, p.done, p.years = nil, 0, 0
	a.ByRuns, a.Median, a.Main, a.Kept, a.Begun = "what the plant carries in one run is nowhere near what it does in the next", 0, "", 0, 0
	return find()
}

// check says what the file must have for the answer.
func (p *planner) check(f *facilityfile.File) error {
	switch {
	case p.inputs.certain() && len(f.Planning.Inputs) > 0:
		return errors.New("only prices are uncertain in it, and they move the cost alone; ask for --answer cost, or add other inputs to uncertain")
	case p.inputs.certain():
		return errors.New("nothing in it is uncertain, so that nothing can move the answer.\n" +
			"  Add growth_scenarios, or a list such as\n" +
			"    uncertain:\n" +
			"      - {input: solids.dry_per_day, uniform: [0.45 t/day, 0.55 t/day]}")
	case p.o.Output == PresentWorth && !f.Planning.Priced:
		return errors.New("it has no section on money, so that nothing has a cost; add money, or ask for --answer vessels or chips")
	}
	return nil
}

// planner makes the runs.
type planner struct {
	o      Options
	inputs inputs
	study  *study.Study
	yearly *yearly // nil where each point is simulated over the whole horizon
	done   int     // runs
	years  int     // simulated for yearly, warm-ups included

	progress func(done, total int)
}

// byWhatIsCarried prepares for the year by what the plant carries, if that tells it.
func (p *planner) byWhatIsCarried(ctx context.Context, a *Answer) (err error) {
	if p.yearly, a.ByRuns, err = p.newYearly(ctx); err != nil || p.yearly == nil {
		return err
	}
	a.Median = p.yearly.median().value
	if growths := p.inputs.planning.Growths; len(growths) > 1 {
		a.Main = growths[vesselplan.MainGrowth(p.inputs.planning)].Name
	}
	return nil
}

func (p *planner) answer(setup answer.Setup) *Answer {
	f := p.study.File
	a := &Answer{
		Basis: setup.Basis(f), Installed: f.Model.Vessels.Installed, Output: p.o.Output, Drivers: p.inputs.drivers(),
		Correlated: len(f.Planning.Correlations) > 0, Unpriced: len(p.inputs.moved) < len(f.Planning.Inputs),
		Trajectories: p.o.Trajectories, Points: p.inputs.dims() + 1, RunsAPoint: p.o.Replications, Rows: p.o.Rows,
	}
	a.Builds = len(f.Planning.Options)+len(f.Planning.Catalogue) > 0
	for _, c := range f.Model.Changes {
		a.Committed = a.Committed || c.Vessels > 0
	}
	return a
}

// screen finds the effect of each input.
func (p *planner) screen(ctx context.Context, a *Answer) error {
	design, err := sensitivity.NewScreening(p.inputs.dims(), p.o.Trajectories, levels, p.study.File.Seed)
	if err != nil {
		return err
	}
	readings, err := p.evaluate(ctx, design.Points(), levels, p.o.Replications)
	if err != nil {
		return err
	}
	values := make([]float64, len(readings))
	for i, r := range readings {
		values[i] = r.value
		a.Kept += r.kept / float64(len(readings))
		a.Begun += r.begun / float64(len(readings))
	}
	a.Least, a.Mean, a.Most = floats.Min(values), stat.Mean(values, nil), floats.Max(values)
	effects, err := design.Effects(values, Level)
	if err != nil {
		return err
	}
	for i := range effects {
		a.Drivers[i].Effect = effects[i]
	}
	return nil
}

// share finds the share of each input in the variance of one run's output.
func (p *planner) share(ctx context.Context, a *Answer) error {
	design, err := sensitivity.NewDecomposition(p.inputs.dims(), p.o.Rows, p.study.File.Seed)
	if err != nil {
		return err
	}
	readings, err := p.evaluate(ctx, design.Points(), streams, 1)
	if err != nil {
		return err
	}
	values := make([]float64, len(readings))
	for i, r := range readings {
		values[i] = r.value
	}
	shares, err := design.Shares(values, Level)
	if err != nil {
		return err
	}
	a.SD = math.Sqrt(shares.Variance)
	for i := range shares.Inputs {
		a.Drivers[i].Share = shares.Inputs[i]
	}
	return nil
}

// evaluate reads the output at each point, from so many replications. Which they are
// depends on nothing but the point's last coordinate, so that points that differ in an
// input alone meet common random numbers.
func (p *planner) evaluate(ctx context.Context, points [][]float64, streams, replications int) ([]reading, error) {
	if p.yearly != nil {
		return p.yearly.evaluate(ctx, points, streams, replications)
	}
	var runs []study.Run
	for _, point := range points {
		c, stream := p.inputs.at(point)
		runs = append(runs, study.Runs(c, int(stream*float64(streams))*replications, replications)...)
	}
	before, total := p.done, p.total()
	readings, err := study.Each(ctx, p.study, runs, func(r *study.Result) (reading, error) {
		return p.o.Output.read(p.inputs.planning, r)
	}, func(done, _ int) { p.progress(before+done, total) })
	p.done += len(runs)
	var out []reading
	for list := range slices.Chunk(readings, replications) {
		var mean reading
		for _, r := range list {
			mean.value += r.value / float64(replications)
			mean.kept += r.kept / float64(replications)
		}
		out = append(out, mean)
	}
	return out, err
}

// total is the number of runs in all.
func (p *planner) total() int {
	dims := p.inputs.dims()
	return p.o.Trajectories*(dims+1)*p.o.Replications + p.o.Rows*(dims+2)
}

// sort takes the noise from the end of the drivers and puts the others in order.
func (p *planner) sort(a *Answer) {
	a.Runs, a.Simulated = p.done, p.years
	last := len(a.Drivers) - 1
	a.Noise, a.Drivers = a.Drivers[last], a.Drivers[:last]
	slices.SortStableFunc(a.Drivers, func(x, y Driver) int {
		return cmp.Compare(y.Effect.MuStar.Estimate, x.Effect.MuStar.Estimate)
	})
}
