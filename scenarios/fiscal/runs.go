package fiscal

import (
	"context"
	"time"

	"loamcast/facility/plant"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
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

// AsIs simulates the plant as the file has it. All questions of a study that ask for the
// same years and futures share the runs.
func (p *Plan) AsIs(ctx context.Context, s *study.Study, progress func(done, total int)) ([]Run, error) {
	type key struct {
		first        Month
		months, runs int
		growth       string
	}
	k := key{p.Months[0], len(p.Months), p.Replications, p.Options.Growth}
	runs, err := s.Once(k, func() (any, error) {
		return study.Each(ctx, s, p.Runs(s, study.Case{}), func(r *study.Result) (Run, error) {
			return Run{p.Of(r.Record), r.Record.ChipOrders, r.Economy, r.Plant.Chips}, nil
		}, progress)
	})
	if err != nil {
		return nil, err
	}
	return runs.([]Run), nil
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

// Join makes one number of the twelve of a fiscal year.
type Join func(months []float64) float64

// Sum, Most and End add up months, take the highest, and take the last.
func Sum(months []float64) float64 { return sum(months) }

// Most returns the highest; see [Sum].
func Most(months []float64) float64 {
	most := months[0]
	for _, v := range months {
		most = max(most, v)
	}
	return most
}

// End returns the last; see [Sum].
func End(months []float64) float64 { return months[len(months)-1] }

// InMonth returns a number of each replication in one month. Each run is the
// months of a replication.
func InMonth[T any](runs [][]T, month int, of func(*T) float64) []float64 {
	out := make([]float64, len(runs))
	for i := range runs {
		out[i] = of(&runs[i][month])
	}
	return out
}

// ToDate returns the sum of a number of each replication from the beginning of
// the fiscal year to the end of a month.
func ToDate[T any](runs [][]T, month int, of func(*T) float64) []float64 {
	out := make([]float64, len(runs))
	for i := range runs {
		for m := month - month%calendar.MonthsPerYear; m <= month; m++ {
			out[i] += of(&runs[i][m])
		}
	}
	return out
}

// InYear returns a number of each replication in one fiscal year, counted from
// 0.
func InYear[T any](runs [][]T, year int, of func(*T) float64, join Join) []float64 {
	out := make([]float64, len(runs))
	months := make([]float64, calendar.MonthsPerYear)
	for i := range runs {
		for m := range months {
			months[m] = of(&runs[i][year*calendar.MonthsPerYear+m])
		}
		out[i] = join(months)
	}
	return out
}

// Chance estimates how likely a number is to pass a limit from the replications
// in which it does, with its 95 % interval (Wilson).
func Chance(xs []float64, limit float64) stats.Interval {
	n := 0
	for _, x := range xs {
		if x > limit {
			n++
		}
	}
	interval, err := stats.Wilson(n, len(xs), 0.95)
	if err != nil {
		panic(err) // not without a replication
	}
	return interval
}
