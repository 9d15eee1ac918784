package setback

import (
	"context"
	"fmt"

	"loamcast/facility/plant"
	"loamcast/scenarios/costs"
	"loamcast/scenarios/facilityfile"
	"loamcast/scenarios/study"
	"loamcast/sim/calendar"
)

// yearsSeen are simulated from the beginning of the year in which a setback begins: the
// twelve months from any of its months are within them. The second one of the horizon's
// last year is beyond it, with growth going on.
const yearsSeen = 2

// month is what a month of a run shows.
type month struct {
	fed, untreated float64 // kg dry
	delayed        float64 // kg dry × days
	held, fullest  float64 // most held, kg dry, and its part of the room
	lost, failed   float64 // loads that fail, and the cake in them, kg dry
}

// run is what a replication shows of the years seen.
type run struct {
	months  []month
	missed  [calendar.MonthsPerYear]bool // the target, in the twelve months from each month on
	tipping float64                      // USD, in the prices of the file
	cake    []float64                    // mixed, kg dry, and loads filled, by class of vessels
	loads   []float64
}

// trials runs the replications: each has the growth scenario and the luck that it has in
// every case.
type trials struct {
	study       *study.Study
	growths     []int // by replication
	done, total int
	progress    func(done, total int)
}

// without returns the runs of a year in which nothing happens.
func (t *trials) without(ctx context.Context, year int) ([]run, error) {
	return t.simulate(ctx, year, func(*plant.Model) {})
}

// with returns those in which a setback begins on a day.
func (t *trials) with(ctx context.Context, s *facilityfile.Setback, year int, from calendar.Date) ([]run, error) {
	return t.simulate(ctx, year, func(m *plant.Model) { s.Put(m, from) })
}

// simulate runs all replications of a year and the next, of a plant that waits for a sign
// those before it, too.
func (t *trials) simulate(ctx context.Context, year int, alter func(*plant.Model)) ([]run, error) {
	var runs []study.Run
	for replication, growth := range t.growths {
		c := study.Case{Growth: growth, First: year, Years: yearsSeen, Alter: alter}
		if t.study.Triggered(&c) {
			c.First, c.Years = 0, year+yearsSeen
		}
		runs = append(runs, study.Run{Case: &c, Replication: replication})
	}
	out, err := study.Each(ctx, t.study, runs, t.reduce, func(done, _ int) { t.progress(t.done+done, t.total) })
	t.done += len(runs)
	return out, err
}

// reduce takes from a run what is compared.
func (t *trials) reduce(r *study.Result) (run, error) {
	all := r.Record.Months[len(r.Record.Months)-yearsSeen*calendar.MonthsPerYear:]
	var out run
	for i := range all {
		m := &all[i]
		out.months = append(out.months, month{
			fed: m.Feed.Dry, untreated: m.Untreated(), delayed: m.Holding.Delayed,
			held: m.Holding.Peak, fullest: m.Holding.Fullest, lost: m.Release.Failed, failed: m.Release.FailedCakeDry,
		})
	}
	for i := range out.missed {
		out.missed[i] = t.study.File.Planning.Target.Missed(all[i : i+calendar.MonthsPerYear])
	}
	out.cake, out.loads = byClass(all, r.Plant.Vessels.ClassCount())
	if !t.study.File.Planning.Priced {
		return out, nil
	}
	plan, err := costs.Plan(&t.study.File.Planning, r)
	if err != nil {
		return out, fmt.Errorf("replication %d: %w", r.Replication, err)
	}
	for _, year := range plan.Years[len(plan.Years)-yearsSeen:] {
		out.tipping += year.Tipping * plan.Prices.Tipping.Amount
	}
	return out, nil
}

// byClass returns the cake mixed into the vessels of each class, kg dry, and their loads.
func byClass(months []plant.Month, classes int) (cake, loads []float64) {
	cake, loads = make([]float64, classes), make([]float64, classes)
	for i := range months {
		m := &months[i]
		if len(m.Classes) == 0 {
			cake[0] += m.Mixing.CakeDry
			loads[0] += m.Loads.Filled
		}
		for class := range m.Classes {
			cake[class] += m.Classes[class].CakeDry
			loads[class] += m.Classes[class].Loads
		}
	}
	return cake, loads
}

// loadDry returns the cake in a load of a class, kg dry, in the mean; 0 if there is none.
func loadDry(runs []run, class int) float64 {
	cake, loads := 0.0, 0.0
	for i := range runs {
		cake += runs[i].cake[class]
		loads += runs[i].loads[class]
	}
	if loads == 0 {
		return 0
	}
	return cake / loads
}
