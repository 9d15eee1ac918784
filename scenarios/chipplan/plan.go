package chipplan

import (
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
	"loamcast/sim/calendar"
	"loamcast/sim/random"
	"loamcast/sim/stats"
)

// Options are what a caller may choose beside the file.
type Options struct {
	fiscal.Options
	Budget   float64 // USD a fiscal year, whose chance of being passed is asked; 0 for none
	StockOut float64 // chance of a stock-out in a year that is accepted, 0…1
	// PerOrder is the fixed cost of an order, USD, on top of the chips' price.
	PerOrder float64
}

// Ask makes the purchase plan. An error is an *answer.OptionError, carries the
// replication, the simulated date and the event, or is ctx's.
func Ask(ctx context.Context, s *study.Study, setup answer.Setup, o Options) (*Answer, error) {
	f := s.File
	years, err := fiscal.New(f, o.Options)
	switch {
	case err != nil:
		return nil, err
	case o.Budget > 0 && !f.Mix.Priced:
		return nil, answer.WrongOption("budget:", "%s", units.InCurrency(`the file has no price of chips; add a line such as "price: 9 USD/yd3" under chips`, f.Currency))
	case o.PerOrder > 0 && !f.Planning.Priced:
		return nil, answer.WrongOption("order-cost:", "the cost of orders can be weighed against stock only if the file has a section on money")
	}
	p := planner{study: s, years: years, o: o, price: priceOf(f), progress: setup.Part("simulating")}
	runs, orders, histories, err := p.simulate(ctx)
	if err != nil {
		return nil, err
	}
	a := &Answer{Basis: setup.Basis(f).Replicated(years.Replications), Naming: years.Naming, Growths: years.Shares, Price: p.price}
	for i, month := range years.Months {
		a.Months = append(a.Months, Month{
			Month: month, Flows: monthFlows(runs, i),
			BoughtToDate: answer.SpreadOf(fiscal.ToDate(runs, i, bought)),
			SpendToDate:  answer.SpreadOf(fiscal.ToDate(runs, i, spend)),
		})
	}
	for y, label := range years.Labels {
		year := p.year(runs, y, label)
		year.Orders = ordersOf(orders, years.Begin(y))
		a.Years = append(a.Years, year)
	}
	a.Amendments = p.amendments(runs)
	a.Sources = p.sources(runs)
	a.Ordering, err = p.ordering(ctx, runs, histories)
	return a, err
}

// planner makes the runs and the plan of them.
type planner struct {
	study *study.Study
	years *fiscal.Plan
	o     Options
	price Price

	progress func(done, total int) // of each round of runs
}

// simulate runs the plant as it is, and finds what the mix takes each day if there are
// always chips: what an inventory has to live with.
func (p *planner) simulate(ctx context.Context) (runs [][]facts, orders [][]plant.ChipOrder, histories []*history, err error) {
	asIs, err := p.years.AsIs(ctx, p.study, p.progress)
	if err != nil {
		return nil, nil, nil, err
	}
	for rep := range asIs {
		runs = append(runs, p.facts(asIs[rep].Months, &asIs[rep].Economy))
		orders = append(orders, asIs[rep].Orders)
	}
	supplied, err := p.supplied(ctx, asIs)
	if err != nil {
		return nil, nil, nil, err
	}
	for rep, taken := range supplied {
		key := random.Key{Seed: p.study.File.Seed, Replication: rep}
		for stream := range leadStreams {
			histories = append(histories, taken.withLeads(&asIs[rep].Chips, key, uint64(stream)))
		}
	}
	return runs, orders, histories, nil
}

// supplied returns what each replication takes if there are always chips: what it took as
// it is, or, where it was short, what it takes if every order comes at once.
func (p *planner) supplied(ctx context.Context, asIs []fiscal.Run) ([]*history, error) {
	out := make([]*history, len(asIs))
	var again []study.Run
	for rep, run := range p.years.Runs(p.study, study.Case{Alter: neverShort}) {
		if slices.ContainsFunc(asIs[rep].Months, func(m fiscal.Goods) bool { return m.Chips.HoursShort > 0 }) {
			again = append(again, run)
			continue
		}
		out[rep] = newHistory(asIs[rep].Months, asIs[rep].Chips.Truckload)
	}
	found, err := study.Each(ctx, p.study, again, func(r *study.Result) (*history, error) {
		return newHistory(p.years.Of(r.Record), r.Plant.Chips.Truckload), nil
	}, p.progress)
	for i, h := range found {
		out[again[i].Replication] = h
	}
	return out, err
}

// leadStreams is how many streams of lead times each replication's use is tried
// with.
const leadStreams = 10

// neverShort has every order delivered at once. A large store would do as well,
// but for the moisture of its chips, which would not follow the seasons.
func neverShort(m *plant.Model) {
	c := &m.Chips
	c.Reorder = max(c.Reorder, c.Truckload)
	c.OrderUpTo = max(c.OrderUpTo, 2*c.Reorder+c.Truckload)
	c.Capacity = max(c.Capacity, c.OrderUpTo)
	c.AtOnce()
}

// ordering looks for the best rule and tries it in the plant. Where the plant
// runs short more often than the inventory model says, the next rule tried has
// a chance in the model that is lower in that proportion.
func (p *planner) ordering(ctx context.Context, runs [][]facts, histories []*history) (out Ordering, err error) {
	c := &p.study.File.Model.Chips
	out = Ordering{
		Store: c.Capacity, Truckload: c.Truckload, LeadTime: c.LeadTime.Days(), LeadCV: c.LeadCV,
		Limit: p.o.StockOut, Cost: p.costModel(),
	}
	s := &shelf{histories: histories, streams: leadStreams, store: c.Capacity, truckload: c.Truckload, cost: out.Cost, workers: p.study.Workers}
	out.AsIs = s.trial(Rule{c.Reorder, c.OrderUpTo})
	out.AsIs.Plant = stockOuts(runs)

	limit := out.Limit
	for out.Simulated < mostSimulated {
		var tried int
		if out.Best, out.Fits, tried, err = s.search(ctx, limit); err != nil {
			return out, err
		}
		out.Tried = max(out.Tried, tried)
		if out.Best.Plant, err = p.inThePlant(ctx, out.Best.Rule); err != nil {
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
func (p *planner) inThePlant(ctx context.Context, r Rule) (stats.Interval, error) {
	runs := p.years.Runs(p.study, study.Case{Alter: func(m *plant.Model) {
		m.Chips.Reorder, m.Chips.OrderUpTo = r.Reorder, r.OrderUpTo
		m.Chips.Capacity = max(m.Chips.Capacity, r.OrderUpTo)
	}})
	months, err := study.Each(ctx, p.study, runs, func(res *study.Result) ([]facts, error) {
		return p.facts(p.years.Of(res.Record), &res.Economy), nil
	}, p.progress)
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
