package expand

import (
	"context"

	"gonum.org/v1/gonum/stat"

	"loamcast/scenarios/answer"
	"loamcast/scenarios/capability"
	"loamcast/scenarios/money"
	"loamcast/sim/stats"
)

const level = 0.95 // of intervals

// answer puts together what was found.
func (e *expansion) answer(ctx context.Context, c *choice, through int, setup answer.Setup) (*Answer, error) {
	f, rates := e.file, e.rates()
	a := &Answer{
		Basis: setup.Basis(f), Growth: e.growths.told(), Alone: len(e.growths.places) == 1 && len(f.Planning.Growths) > 1,
		ByRuns: capability.Steady(f).Why,
		Stated: rates.Stated, Real: rates.RealDiscount(),
		AsIs: e.last[0], AsIsMissed: e.asIsMissed, AsIsShort: e.short[0], Through: through,
		Chance: c.chance, OfThese: c.chance, Settled: c.settled, Indifference: c.indifference,
		Configurations: e.size, Most: e.most,
	}
	for _, w := range c.plans {
		p, err := e.planOf(ctx, w, c.plans[0], through)
		if err != nil {
			return nil, err
		}
		a.Plans = append(a.Plans, p)
		if len(a.Plans) <= tested && !p.Sure() {
			a.Settled = false
		}
	}
	var err error
	if !a.Keeps() {
		a.Short, err = e.shortWith(ctx, c.plans[0].path)
	}
	a.Simulated, a.YearsSimulated = len(e.bases), e.states.Simulated()+e.wholeYears()
	return a, err
}

// shortWith returns what is short in the first year that a plan does not keep.
func (e *expansion) shortWith(ctx context.Context, p path) (capability.Lack, error) {
	end := 0
	if len(p.configs) > 0 {
		end = p.configs[len(p.configs)-1]
	}
	if e.last[end] == unknown {
		if err := e.simulate(ctx, end); err != nil {
			return capability.Lack{}, err
		}
	}
	return e.short[end], nil
}

func (e *expansion) planOf(ctx context.Context, w, first *whole, through int) (Plan, error) {
	p := Plan{Steps: e.stepsTaken(w.path), Dated: w.steps, Replications: w.replications()}
	p.byContract(w)
	if err := p.costs(w, first); err != nil {
		return p, err
	}
	return p, e.service(ctx, &p, w, through)
}

// byContract fills in what a plan hauls by contract.
func (p *Plan) byContract(w *whole) {
	fed, n := 0.0, w.replications()
	for rep := range n {
		fed += w.runs[rep].fed / float64(n)
		p.Contract += w.runs[rep].contract / float64(n)
	}
	if fed > 0 {
		p.ContractShare = p.Contract / fed
	}
}

// costs fills in what a plan costs. The plans have not all the same replications, whose
// luck is in their means: a plan costs what the first does, and what it costs more in
// the replications that both have.
func (p *Plan) costs(w, first *whole) (err error) {
	worth, both := w.present(w.replications()), together(w, first)
	if w == first {
		worth = w.present(w.told)
	}
	if p.Present, err = stats.MeanInterval(worth, level); err != nil {
		return err
	}
	if p.OverFirst, err = stats.PairedMean(w.present(both), first.present(both), level); err != nil {
		return err
	}
	luck := p.Present.Estimate - stat.Mean(first.present(first.told), nil) - p.OverFirst.Estimate
	p.Present.Estimate, p.Present.Low, p.Present.High = p.Present.Estimate-luck, p.Present.Low-luck, p.Present.High-luck
	p.Low, p.High = stats.Quantile(worth, 0.1)-luck, stats.Quantile(worth, 0.9)-luck
	p.ByPart = first.meanByPart(first.told)
	with, without := w.meanByPart(both), first.meanByPart(both)
	for part := range p.ByPart {
		p.ByPart[part] += with[part] - without[part]
	}
	return nil
}

// service fills in how well a plan keeps the target.
func (e *expansion) service(ctx context.Context, p *Plan, w *whole, through int) error {
	for y := range e.years {
		p.Missed = append(p.Missed, w.hits(y))
	}
	switch _, decided := e.judge(w, through); {
	case through < 0: // there is no year that it keeps
		p.Verdict = stats.Above
	case decided:
		p.Verdict = stats.Below
	}
	if e.steady {
		return e.byCapability(ctx, p, w.path, through)
	}
	for y := range through + 1 {
		if p.Missed[y] > p.Missed[p.Worst] {
			p.Worst = y
		}
	}
	var err error
	p.Share, err = stats.Wilson(p.Missed[p.Worst], p.Replications, level)
	return err
}

// byCapability fills in the shares of runs that miss each year with the configuration
// that is in service from its beginning.
func (e *expansion) byCapability(ctx context.Context, p *Plan, of path, through int) error {
	for y := range e.years {
		config := 0
		if n := len(of.configs); n > 0 {
			config = of.configs[min(y, n-1)] // beyond what a plan keeps, nothing more is built
		}
		if e.odds[config] == nil {
			if err := e.simulate(ctx, config); err != nil {
				return err
			}
		}
		p.Shares = append(p.Shares, e.odds[config].Share(y).Interval())
		if y > through {
			continue
		}
		if p.Shares[y].Estimate > p.Shares[p.Worst].Estimate {
			p.Worst = y
		}
		if p.Shares[y].High > e.target.MissShare+capability.Rounding {
			p.Verdict = stats.Undecided
		}
	}
	p.Share = p.Shares[p.Worst]
	return nil
}

func (w *whole) meanByPart(n int) money.Amounts {
	var out money.Amounts
	for _, part := range money.Parts() {
		xs := make([]float64, n)
		for rep := range xs {
			xs[rep] = w.runs[rep].cost.ByPart[part]
		}
		out[part] = stat.Mean(xs, nil)
	}
	return out
}

// stepsTaken names the steps of a plan with their dates.
func (e *expansion) stepsTaken(p path) []Step {
	var out []Step
	e.taken(p, func(year, step, count int) {
		s := Step{Name: e.steps[step].Name, Brings: e.steps[step].Brings(&e.model.Vessels), Count: count, Year: year, InService: e.model.Start.AddYears(year)}
		s.OrderBy = e.steps[step].Lead.Before(s.InService)
		s.Late = s.OrderBy.Before(e.model.Start)
		s.Later = year >= e.years-int(tail*float64(e.years))
		out = append(out, s)
	})
	return out
}
