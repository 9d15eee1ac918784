package simulate

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// ExactRuns is of how many replications quantiles are exact. Of more, a quantile is the
// number of a replication whose rank among them is off by [stats.RankError] of them at the
// most. Means and sums are of all in any case.
const ExactRuns = 2000

// tally makes an answer of replications that it is shown one by one, in their order. It keeps
// none of their records: of each number that the answer tells quantiles of, what it is in all
// of them, or a summary of that where they are more than exact.
//
// Each part of the answer says once what is to be noted of every replication (each), and
// what becomes of it when all have been seen (last); mostly it names a number of the answer
// and what it is in one replication (spread, and those after it).
type tally struct {
	answer *Answer
	plant  *plant.Plant
	runs   int // that are to come
	exact  int // see ExactRuns

	notes []func(*Replication)
	ends  []func()
}

// newTally begins an answer of so many replications of a plant.
func newTally(b answer.Basis, p *plant.Plant, runs, exact int) *tally {
	t := &tally{answer: &Answer{Basis: b.Replicated(runs)}, plant: p, runs: runs, exact: exact}
	t.answer.Years = make([]Year, p.Years)
	t.answer.Months = make([]Month, calendar.MonthsPerYear*p.Years)
	return t
}

// add shows it the next replication.
func (t *tally) add(r *Replication) {
	for _, note := range t.notes {
		note(r)
	}
}

// close makes the answer, when all have been seen.
func (t *tally) close() *Answer {
	for _, end := range t.ends {
		end()
	}
	return t.answer
}

// each has something noted of every replication.
func (t *tally) each(note func(*Replication)) { t.notes = append(t.notes, note) }

// last has something done when all have been seen, after what was asked for before.
func (t *tally) last(end func()) { t.ends = append(t.ends, end) }

// over notes a number of each replication and puts into the answer how it is spread.
func (t *tally) over(into *answer.Spread, of func(*Replication) float64) {
	seen := stats.NewSample(t.exact, t.runs)
	t.each(func(r *Replication) { seen.Add(of(r)) })
	t.last(func() { *into = answer.SpreadIn(seen) })
}

// spread is over of the plant as it is.
func (t *tally) spread(into *answer.Spread, of func(*plant.Record) float64) {
	t.over(into, func(r *Replication) float64 { return of(r.Usual) })
}

// free is over of the plant with a vessel for every load.
func (t *tally) free(into *answer.Spread, of func(*Free) float64) {
	t.over(into, func(r *Replication) float64 { return of(r.Free) })
}

// share puts into the answer the share of the replications of which something is true.
func (t *tally) share(into *float64, of func(*Replication) bool) {
	n := 0
	t.each(func(r *Replication) {
		if of(r) {
			n++
		}
	})
	t.last(func() { *into = float64(n) / float64(t.runs) })
}

// median puts a count of the median replication into the answer: triggers may add vessels
// at different times, or never.
func (t *tally) median(into *int, of func(*plant.Record) float64) {
	var over answer.Spread
	t.spread(&over, of)
	t.last(func() { *into = int(over.P50) })
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
