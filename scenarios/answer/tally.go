package answer

import "loamcast/sim/stats"

// ExactRuns is of how many replications quantiles are exact. Of more, a quantile is the
// number of a replication whose rank among them is off by [stats.RankError] of them at the
// most. Means and sums are of all in any case.
const ExactRuns = 2000

// Tally makes an answer of replications that it is shown one by one, in their order. It keeps
// none of them: of each number that the answer tells quantiles of, what it is in all of them,
// or a summary of that where they are more than exact.
//
// Each part of the answer says once what is to be noted of every replication (Each), and
// what becomes of it when all have been seen (Last); mostly it names a number of the answer
// and what it is in one replication (Over).
type Tally[R any] struct {
	Runs int // that are to come

	exact int // see ExactRuns
	notes []func(R)
	ends  []func()
}

// NewTally begins one of so many replications, with quantiles that are exact of so many.
func NewTally[R any](runs, exact int) *Tally[R] { return &Tally[R]{Runs: runs, exact: exact} }

// Add shows it the next replication.
func (t *Tally[R]) Add(r R) {
	for _, note := range t.notes {
		note(r)
	}
}

// Close ends it, when all have been seen.
func (t *Tally[R]) Close() {
	for _, end := range t.ends {
		end()
	}
}

// Each has something noted of every replication.
func (t *Tally[R]) Each(note func(R)) { t.notes = append(t.notes, note) }

// Last has something done when all have been seen, after what was asked for before.
func (t *Tally[R]) Last(end func()) { t.ends = append(t.ends, end) }

// Over notes a number of each replication, puts into the answer how it is spread, and
// returns what is kept of it.
func (t *Tally[R]) Over(into *Spread, of func(R) float64) *stats.Sample {
	seen := stats.NewSample(t.exact, t.Runs)
	t.Each(func(r R) { seen.Add(of(r)) })
	t.Last(func() { *into = SpreadIn(seen) })
	return seen
}
