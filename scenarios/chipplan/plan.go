package chipplan

import (
	"context"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
	"loamcast/sim/random"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file and the years.
type Options struct {
	Source   string
	Invented bool
	Version  string
	Workers  int     // 0 for all cores
	Budget   float64 // USD a fiscal year, whose chance of being passed is asked; 0 for none
	StockOut float64 // chance of a stock-out in a year that is accepted, 0…1
	// PerOrder is the fixed cost of an order, USD, on top of the chips' price.
	PerOrder float64
	Progress func(done, total int) // of each round of runs; may be nil
}

// Plan makes the purchase plan. An error carries the replication, the simulated
// date and the event, or is ctx's.
func Plan(ctx context.Context, f *facilityfile.File, p *fiscal.Plan, o Options) (*Answer, error) {
	s, err := study.New(f, o.Workers)
	if err != nil {
		return nil, err
	}
	return With(ctx, s, p, o)
}

// With is Plan on a study that is there already, whose workers count.
func With(ctx context.Context, s *study.Study, p *fiscal.Plan, o Options) (*Answer, error) {
	f := s.File
	w := work{Study: s, plan: p, o: o, price: priceOf(f)}
	runs, histories, err := w.simulate(ctx)
	if err != nil {
		return nil, err
	}
	a := &Answer{
		Facility: f.Name, Source: o.Source, Invented: o.Invented, Version: o.Version,
		Seed: f.Seed, Replications: p.Replications, Begins: p.Begins, Level: fiscal.Level,
		Growths: p.Shares, Price: w.price,
	}
	for i, month := range p.Months {
		a.Months = append(a.Months, Month{
			Month: month, Flows: monthFlows(runs, i),
			BoughtToDate: fiscal.Spread(fiscal.ToDate(runs, i, bought)),
			SpendToDate:  fiscal.Spread(fiscal.ToDate(runs, i, spend)),
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
	}, w.o.Progress)
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
	}, w.o.Progress)
	if err != nil {
		return stats.Interval{}, err
	}
	return stockOuts(months), nil
}

// stockOuts returns the chance of a stock-out in the year in which it is
// likeliest.
func stockOuts(runs [][]facts) stats.Interval {
	worst := stats.Interval{Estimate: -1}
	for y := range len(runs[0]) / monthsPerYear {
		if c := fiscal.Chance(fiscal.InYear(runs, y, hoursShort, fiscal.Sum), 0); c.Estimate > worst.Estimate {
			worst = c
		}
	}
	return worst
}
