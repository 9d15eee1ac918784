package chipplan

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file.
type Options struct {
	fiscal.Ask
	Budget   float64 // USD a fiscal year, whose chance of being passed is asked; 0 for none
	StockOut float64 // chance of a stock-out in a year that is accepted, 0…1
	// PerOrder is the fixed cost of an order, USD, on top of the chips' price.
	PerOrder float64
}

// Ask makes the purchase plan. An error is an *answer.OptionError, carries the
// replication, the simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	p, err := fiscal.New(f, o.Ask)
	switch {
	case err != nil:
		return nil, err
	case o.Budget > 0 && !f.Mix.Priced:
		return nil, answer.WrongOption("budget:", `the file has no price of chips; add a line such as "price: 9 USD/yd3" under chips`)
	case o.PerOrder > 0 && !f.Planning.Priced:
		return nil, answer.WrongOption("order-cost:", "the cost of orders can be weighed against stock only if the file has a section on money")
	}
	w := work{Study: s, plan: p, o: o, price: priceOf(f), progress: setup.Part("simulating")}
	runs, histories, err := w.simulate(ctx)
	if err != nil {
		return nil, err
	}
	a := &Answer{Basis: setup.Basis(f).Replicated(p.Replications), Begins: p.Begins, Growths: p.Shares, Price: w.price}
	for i, month := range p.Months {
		a.Months = append(a.Months, Month{
			Month: month, Flows: monthFlows(runs, i),
			BoughtToDate: answer.SpreadOf(fiscal.ToDate(runs, i, bought)),
			SpendToDate:  answer.SpreadOf(fiscal.ToDate(runs, i, spend)),
		})
	}
	for y, label := range p.Labels {
		a.Years = append(a.Years, w.year(runs, y, label))
	}
	a.Ordering, err = w.ordering(ctx, runs, histories)
	return a, err
}

// work is a plan in the making.
type work struct {
	*study.Study
	plan  *fiscal.Plan
	o     Options
	price Price

	progress func(done, total int) // of each round of runs
}

// simulate runs the plant as it is, and as it would be if every order came at
// once: what the mix then takes each day is what an inventory has to live with.
func (w *work) simulate(ctx context.Context) (runs [][]facts, histories []*history, err error) {
	n := w.plan.Replications
	asIs := w.plan.Runs(w.Study, study.Case{})
	supplied := w.plan.Runs(w.Study, study.Case{Alter: neverShort})
	type found struct {
		months []facts
		chips  plant.Chips
		use    *history
	}
	results, err := study.Each(ctx, w.Study, append(asIs, supplied...), func(r *study.Result) (found, error) {
		months := w.plan.Of(r.Record)
		return found{w.facts(months, &r.Economy), r.Plant.Chips, newHistory(months, r.Plant.Chips.Truckload)}, nil
	}, w.progress)
	if err != nil {
		return nil, nil, err
	}
	for rep := range n {
		is, could := results[rep], results[n+rep]
		runs = append(runs, is.months)
		key := random.Key{Seed: w.File.Seed, Replication: rep}
		for luck := range lucks {
			histories = append(histories, could.use.withLeads(&is.chips, key, uint64(luck)))
		}
	}
	return runs, histories, nil
}

// lucks is how many courses of lead times each replication's use is tried with.
const lucks = 10

// neverShort has every order delivered at once. A large store would do as well,
// but for the moisture of its chips, which would not follow the seasons.
func neverShort(m *plant.Model) {
	c := &m.Chips
	c.Reorder = max(c.Reorder, c.Truckload)
	c.OrderUpTo = max(c.OrderUpTo, 2*c.Reorder+c.Truckload)
	c.Capacity = max(c.Capacity, c.OrderUpTo)
	c.LeadTime = 0
}

// ordering looks for the best rule and tries it in the plant. Where the plant
// runs short more often than the inventory model says, the next rule tried has
// a chance in the model that is lower in that proportion.
func (w *work) ordering(ctx context.Context, runs [][]facts, histories []*history) (out Ordering, err error) {
	c := &w.File.Model.Chips
	out = Ordering{
		Store: c.Capacity, Truckload: c.Truckload, LeadTime: c.LeadTime.Days(), LeadCV: c.LeadCV,
		Limit: w.o.StockOut, Cost: w.costModel(),
	}
	s := &shelf{histories: histories, lucks: lucks, store: c.Capacity, truckload: c.Truckload, cost: out.Cost, workers: w.Workers}
	out.AsIs = s.trial(Rule{c.Reorder, c.OrderUpTo})
	out.AsIs.Plant = stockOuts(runs)

	limit := out.Limit
	for out.Simulated < mostSimulated {
		var tried int
		if out.Best, out.Fits, tried, err = s.search(ctx, limit); err != nil {
			return out, err
		}
		out.Tried = max(out.Tried, tried)
		if out.Best.Plant, err = w.inThePlant(ctx, out.Best.Rule); err != nil {
			return out, err
		}
		out.Simulated++
		chance := out.Best.Plant.Estimate
		if out.Kept = chance <= out.Limit; out.Kept {
			break
		}
		limit = min(limit, out.Best.Inventory.Estimate) * out.Limit / chance
	}
	return out, nil
}

// mostSimulated bounds the rules that are tried in the plant.
const mostSimulated = 3

// inThePlant returns the chance of a stock-out of the plant under a rule.
func (w *work) inThePlant(ctx context.Context, r Rule) (stats.Interval, error) {
	runs := w.plan.Runs(w.Study, study.Case{Alter: func(m *plant.Model) {
		m.Chips.Reorder, m.Chips.OrderUpTo = r.Reorder, r.OrderUpTo
		m.Chips.Capacity = max(m.Chips.Capacity, r.OrderUpTo)
	}})
	months, err := study.Each(ctx, w.Study, runs, func(res *study.Result) ([]facts, error) {
		return w.facts(w.plan.Of(res.Record), &res.Economy), nil
	}, w.progress)
	if err != nil {
		return stats.Interval{}, err
	}
	return stockOuts(months), nil
}

// stockOuts returns the chance of a stock-out in the year in which it is
// likeliest.
func stockOuts(runs [][]facts) stats.Interval {
	worst := stats.Interval{Estimate: -1}
	for y := range len(runs[0]) / calendar.MonthsPerYear {
		if c := fiscal.Chance(fiscal.InYear(runs, y, hoursShort, fiscal.Sum), 0); c.Estimate > worst.Estimate {
			worst = c
		}
	}
	return worst
}
