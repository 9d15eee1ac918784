package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
)

// tally makes an answer of replications; see [answer.Tally].
type tally struct {
	*answer.Tally[*Replication]
	answer *Answer
	plant  *plant.Plant
}

// newTally begins an answer of so many replications of a plant.
func newTally(b answer.Basis, p *plant.Plant, runs, exact int) *tally {
	t := &tally{Tally: answer.NewTally[*Replication](runs, exact), answer: &Answer{Basis: b.Replicated(runs)}, plant: p}
	t.answer.Years = make([]Year, p.Years)
	t.answer.Months = make([]Month, calendar.MonthsPerYear*p.Years)
	return t
}

// close makes the answer, when all have been seen.
func (t *tally) close() *Answer {
	t.Close()
	return t.answer
}

// spread is Over of the plant as it is.
func (t *tally) spread(into *answer.Spread, of func(*plant.Record) float64) {
	t.Over(into, func(r *Replication) float64 { return of(r.Usual) })
}

// free is Over of the plant with a vessel for every load.
func (t *tally) free(into *answer.Spread, of func(*Free) float64) {
	t.Over(into, func(r *Replication) float64 { return of(r.Free) })
}

// share puts into the answer the share of the replications of which something is true.
func (t *tally) share(into *float64, of func(*Replication) bool) {
	n := 0
	t.Each(func(r *Replication) {
		if of(r) {
			n++
		}
	})
	t.Last(func() { *into = float64(n) / float64(t.Runs) })
}

// median puts a count of the median replication into the answer: triggers may add vessels
// at different times, or never.
func (t *tally) median(into *int, of func(*plant.Record) float64) {
	var over answer.Spread
	t.spread(&over, of)
	t.Last(func() { *into = int(over.P50) })
}

// field is a measure of a month.
type field func(*plant.Month) float64

// span picks some months of a record.
type span func(*plant.Record) []plant.Month

// inYear picks the months of year y of the horizon.
func inYear(y int) span {
	return func(rec *plant.Record) []plant.Month {
		return rec.Months[y*calendar.MonthsPerYear : (y+1)*calendar.MonthsPerYear]
	}
}

// inMonth picks one month of the horizon.
func inMonth(i int) span { return func(rec *plant.Record) []plant.Month { return rec.Months[i : i+1] } }

// horizon picks all months.
func horizon(rec *plant.Record) []plant.Month { return rec.Months }

// sum is spread of what some months add up to.
func (t *tally) sum(into *answer.Spread, of span, f field) {
	t.spread(into, func(rec *plant.Record) float64 { return plant.Sum(of(rec), f) })
}

// most is spread of the most that is in one of some months.
func (t *tally) most(into *answer.Spread, of span, f field) {
	t.spread(into, func(rec *plant.Record) float64 { return most(of(rec), f) })
}

// ratio is spread of what some months add up to, for each unit of something else; 0 where
// there is nothing of that.
func (t *tally) ratio(into *answer.Spread, of span, f, per field) {
	t.spread(into, func(rec *plant.Record) float64 { return perUnit(plant.Sum(of(rec), f), plant.Sum(of(rec), per)) })
}

func most(months []plant.Month, of field) float64 {
	top := 0.0
	for i := range months {
		top = max(top, of(&months[i]))
	}
	return top
}

func perUnit(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}
