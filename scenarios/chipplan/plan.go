package chipplan

import (
	"cmp"
	"context"
	"slices"

	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/scenarios/fiscal"
	"loamcast/scenarios/study"
	"loamcast/scenarios/units"
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
	a := &Answer{Basis: setup.Basis(f).Replicated(years.Replications), Naming: years.Naming, Growths: years.Shares, Price: p.price}
	found := p.tally(a)
	lived := newLived(&p)
	for run, err := range years.AsIs(ctx, s, p.progress) {
		if err != nil {
			return nil, err
		}
		found.Add(p.facts(run.Months, &run.Economy))
		for y := range a.Years {
			found.orders[y].add(run.Orders)
		}
		lived.add(&run)
	}
	found.Close()
	histories, err := lived.histories(ctx)
	if err != nil {
		return nil, err
	}
	a.Ordering, err = p.ordering(ctx, found.stockOut, histories)
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

// tally makes an answer of the runs of the plant as it is.
type tally struct {
	fiscal.Tally[facts]
	orders   []orders       // by fiscal year
	stockOut stats.Interval // by the file's rule
}

// tally begins it.
func (p *planner) tally(a *Answer) *tally {
	t := &tally{Tally: fiscal.NewTally[facts](p.years.Replications)}
	a.Months = make([]Month, len(p.years.Months))
	for i, month := range p.years.Months {
		m, toDate := &a.Months[i], fiscal.ToDate[facts](i)
		m.Month = month
		flows(t.Tally, &m.Flows, fiscal.InMonth[facts](i))
		t.Over(&m.BoughtToDate, toDate(bought, fiscal.Sum))
		t.Over(&m.SpendToDate, toDate(spend, fiscal.Sum))
	}
	a.Years = make([]Year, len(p.years.Labels))
	for y, label := range p.years.Labels {
		p.year(t.Tally, &a.Years[y], y, label)
		t.orders = append(t.orders, ordersFrom(p.years.Begin(y)))
	}
	p.amendments(t.Tally, &a.Amendments)
	p.sources(t.Tally, &a.Sources)
	stockOuts(t.Tally, &t.stockOut, len(a.Years), hoursShort)
	t.Last(func() {
		for y := range a.Years {
			a.Years[y].Orders = t.orders[y].told()
		}
	})
	return t
}

// ordering looks for the best rule and tries it in the plant. Where the plant
// runs short more often than the inventory model says, the next rule tried has
// a chance in the model that is lower in that proportion.
func (p *planner) ordering(ctx context.Context, asIs stats.Interval, histories []*history) (out Ordering, err error) {
	c := &p.study.File.Model.Chips
	out = Ordering{
		Store: c.Capacity, Truckload: c.Truckload, LeadTime: c.LeadTime.Days(), LeadCV: c.LeadCV,
		Limit: p.o.StockOut, Cost: p.costModel(),
	}
	s := &shelf{histories: histories, streams: leadStreams, store: c.Capacity, truckload: c.Truckload, cost: out.Cost, workers: p.study.Workers}
	out.AsIs = s.trial(Rule{c.Reorder, c.OrderUpTo})
	out.AsIs.Plant = asIs

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
func (p *planner) inThePlant(ctx context.Context, r Rule) (chance stats.Interval, err error) {
	runs := p.years.Runs(p.study, study.Case{Alter: func(m *plant.Model) {
		m.Chips.Reorder, m.Chips.OrderUpTo = r.Reorder, r.OrderUpTo
		m.Chips.Capacity = max(m.Chips.Capacity, r.OrderUpTo)
	}})
	t := fiscal.NewTally[fiscal.Goods](len(runs))
	stockOuts(t, &chance, len(p.years.Labels), func(m *fiscal.Goods) float64 { return m.Chips.HoursShort })
	for months, err := range study.InOrder(ctx, p.study, runs, func(r *study.Result) ([]fiscal.Goods, error) {
		return p.years.Of(r.Record), nil
	}, p.progress) {
		if err != nil {
			return chance, err
		}
		t.Add(months)
	}
	t.Close()
	return chance, nil
}

// stockOuts puts into a plan the chance of a stock-out in the year in which it is
// likeliest, by the hours of a month for which mixing waits.
func stockOuts[T any](t fiscal.Tally[T], into *stats.Interval, years int, hours func(*T) float64) {
	byYear := make([]stats.Interval, years)
	for y := range byYear {
		t.Chance(&byYear[y], 0, fiscal.InYear[T](y)(hours, fiscal.Sum))
	}
	t.Last(func() {
		*into = slices.MaxFunc(byYear, func(a, b stats.Interval) int { return cmp.Compare(a.Estimate, b.Estimate) })
	})
}
