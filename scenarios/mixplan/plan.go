package mixplan

import (
	"context"
	"errors"
	"fmt"
	"time"

	"loamcast/facility/mix"
	"loamcast/facility/recycle"
	"loamcast/facility/screening"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/replicate"
)

// Options are what a caller may choose beside the file.
type Options struct {
	Month      time.Month // 0 for the one in which the file starts
	CakeSolids float64    // 0 for the file's in that month
	Sweep      []float64  // solids of the cake to design for beside it
	Class      int        // of the vessel, by place in [plant.Vessels.Classes]
}

// DefaultSweep are the solids contents that cake usually has, common practice,
// no source.
func DefaultSweep() []float64 { return []float64{0.16, 0.18, 0.20, 0.22, 0.24, 0.26} }

// Ask designs the mix. A mix that misses its targets is no error. See
// [question.Question] for its errors.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	if o.Month == 0 {
		o.Month = f.Model.Start.Month
	}
	contents := append([]float64{o.CakeSolids}, o.Sweep...)
	designs, err := replicate.Run(ctx, len(contents), s.Workers, func(ctx context.Context, i int) (*designed, error) {
		d := newDesigner(f, o.Class, o.Month, contents[i])
		out, err := d.run(ctx)
		if errors.Is(err, screening.ErrAlternates) {
			return nil, &facilityfile.Error{Err: fmt.Errorf("%s: there is no steady mix in %s with cake of %.3g %% solids: loads swing between a few states, each of which gives back the chips of the next; look at residence, criteria and screen",
				f.Path, o.Month, 100*d.CakeSolids)}
		}
		if errors.Is(err, screening.ErrNotSteady) {
			return nil, &facilityfile.Error{Err: fmt.Errorf("%s: there is no steady mix in %s with cake of %.3g %% solids: what chips and screen take from one load changes the next without end; look at chips and screen",
				f.Path, o.Month, 100*d.CakeSolids)}
		}
		if err != nil {
			return nil, fmt.Errorf("%s mix with cake of %.3g %% solids: %w", o.Month, 100*d.CakeSolids, err)
		}
		return out, nil
	}, setup.Part("designing"))
	if err != nil {
		return nil, err
	}
	a := answerOf(designs[0])
	a.Basis = setup.Basis(f)
	a.Month, a.WhatIf, a.RunsDesign = o.Month, o.CakeSolids != 0, f.Mix.Designed
	a.Class = f.Model.Vessels.ClassName(o.Class)
	for _, d := range designs[1:] {
		a.Sweep = append(a.Sweep, Point{
			CakeSolids: d.CakeSolids, Design: d.batch(), Binding: d.result.Binding, Misses: d.result.Misses, Settled: d.settled(),
		})
	}
	return a, nil
}

// designer searches for the design of one month and cake.
type designer struct {
	recycle.Loop
	wishes facilityfile.MixDesign
	// amendmentCost is that of the file's recipe in the month, USD/m3 of cake, at what
	// is bought where that is.
	amendmentCost float64
}

func newDesigner(f *facilityfile.File, class int, month time.Month, cakeSolids float64) *designer {
	one := f.Model.AsClass(class)
	d := &designer{Loop: recycle.New(&one, month), wishes: f.Mix}
	for i := range f.Model.Amendments {
		a, price := &f.Model.Amendments[i], f.Planning.Economy.Amendments[i]
		cost := price.Own
		if a.Buying.Buys() {
			cost = price.Bought
		}
		d.amendmentCost += a.PerCake[month-1] * cost
	}
	if cakeSolids != 0 {
		d.CakeSolids = cakeSolids
	}
	return d
}

// designed is a design that has been found.
type designed struct {
	*designer
	asRun  *recycle.Steady // the file's recipe
	steady *recycle.Steady // the load that the design settles on
	design mix.Design      // for that load's cake
	result mix.Result
	stays  bool // the search for the steady design came to rest
}
