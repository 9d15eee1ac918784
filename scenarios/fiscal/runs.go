package fiscal

import (
	"context"
	"iter"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// Runs lists the replications of a case, each under its growth scenario, in the
// years of the horizon that must be simulated. A change that waits for a sign
// needs all that went before.
func (p *Plan) Runs(s *study.Study, c study.Case) []study.Run {
	if !s.Triggered(&c) {
		c.First = p.StartMonth / calendar.MonthsPerYear
	}
	c.Years = (p.StartMonth+len(p.Months)+calendar.MonthsPerYear-1)/calendar.MonthsPerYear - c.First
	cases := make([]*study.Case, 0, len(p.Shares)+1)
	runs := make([]study.Run, p.Replications)
	for rep, g := range p.growth {
		var own *study.Case
		for _, made := range cases {
			if made.Growth == g {
				own = made
			}
		}
		if own == nil {
			own = &study.Case{}
			*own = c
			own.Growth = g
			cases = append(cases, own)
		}
		runs[rep] = study.Run{Case: own, Replication: rep}
	}
	return runs
}

// Run is what a replication of the plant brings in the months of the fiscal years.
type Run struct {
	Months  []Goods
	Orders  []plant.ChipOrder    // of the whole run
	Economy facilityfile.Economy // as drawn
	Chips   plant.Chips          // as drawn
}

// Goods are what a month of a replication did with what is bought and sold: all that plans
// of that ask of a month, in a third of its room.
type Goods struct {
	Month      time.Month
	Days       float64 // in the month
	Chips      plant.MonthlyChips
	Amendments []plant.MonthlyAmendment // nil if the recipe has none
	Product    plant.MonthlyProduct
}

// shared is up to how many runs a study keeps of the same years and futures for all of its
// questions: the usual number, and more than that. Of any more each run is let go by the
// question that has asked for it.
const shared = 200

// AsIs simulates the plant as the file has it, and gives the runs in their order. The first
// error comes last.
func (p *Plan) AsIs(ctx context.Context, s *study.Study, progress func(done, total int)) iter.Seq2[Run, error] {
	runs := p.Runs(s, study.Case{})
	take := func(r *study.Result) (Run, error) {
		return Run{p.Of(r.Record), r.Record.ChipOrders, r.Economy, r.Plant.Chips}, nil
	}
	if p.Replications > shared {
		return study.InOrder(ctx, s, runs, take, progress)
	}
	type key struct {
		first        Month
		months, runs int
		growth       string
	}
	return func(yield func(Run, error) bool) {
		kept, err := s.Once(key{p.Months[0], len(p.Months), p.Replications, p.Options.Growth}, func() (any, error) {
			return study.Each(ctx, s, runs, take, progress)
		})
		if err != nil {
			yield(Run{}, err)
			return
		}
		for _, r := range kept.([]Run) {
			if !yield(r, nil) {
				return
			}
		}
	}
}

// Of returns the goods of the months that were asked for, and nothing that holds the record.
func (p *Plan) Of(rec *plant.Record) []Goods {
	first := &rec.Months[0]
	skip := (p.Months[0].Year-first.Year)*calendar.MonthsPerYear + int(p.Months[0].Month) - int(first.Month)
	out := make([]Goods, len(p.Months))
	for i := range out {
		m := &rec.Months[skip+i]
		out[i] = Goods{Month: m.Month, Days: m.Days, Chips: m.Chips, Amendments: m.Amendments, Product: m.Product}
	}
	return out
}

// Begin returns the first day of a fiscal year, counted from 0.
func (p *Plan) Begin(year int) calendar.Date {
	m := p.Months[year*calendar.MonthsPerYear]
	return calendar.Date{Year: m.Year, Month: m.Month, Day: 1}
}

// Years returns the years since the file's start at the middle of a month, by
// its place in Months.
func (p *Plan) Years(month int) float64 {
	return (float64(p.StartMonth+month) + 0.5) / calendar.MonthsPerYear
}
