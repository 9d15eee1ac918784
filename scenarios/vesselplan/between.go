package vesselplan

import (
	"context"

	"loamcast/sim/stats"
)

// Between is where the first year missed may lie, for all that is known: from year
// From to year To, the number of years of the horizon for beyond it.
type Between struct {
	From, To int
	Level    float64
	Runs     int
}

const (
	// betweenLevel is the confidence of a Between, and betweenRuns how many runs it
	// rests on, if as many are allowed.
	betweenLevel, betweenRuns = 0.9, 50
	// Years looked at before and after that in which a few runs first show a miss,
	// and how many more at a time where these are not enough.
	before, after, further = 4, 2, 2
)

// closely finds what a number of vessels lasts for, as row does, and how far off its
// first missed year may be.
func (c *cell) closely(ctx context.Context, guess int) (Row, error) {
	look := bracket{kept: -1, missed: c.years, scout: func(year int) (bool, error) { return c.scout(ctx, year) }}
	first, err := look.lookFirst(guess)
	if err != nil {
		return Row{}, err
	}
	if first < c.years {
		if err := c.cover(ctx, max(0, first-before), min(c.years, first+after), min(betweenRuns, c.most)); err != nil {
			return Row{}, err
		}
	}
	r, err := c.row(ctx, -1, guess)
	if err == nil && r.LastKept+1 < c.years {
		r.Between, err = c.between(ctx, r.LastKept+1, r.FirstMissed)
	}
	return r, err
}

// between tells from the runs of several years how far off the first missed may be:
// it is one of those from short to missed.
func (c *cell) between(ctx context.Context, short, missed int) (*Between, error) {
	n := min(betweenRuns, c.most)
	first, last := max(0, short-further), min(c.years, missed+further)
	for {
		if err := c.cover(ctx, first, last, n); err != nil {
			return nil, err
		}
		from, to, err := stats.Crossing(c.missed(first, last, n), c.relief[first:last], c.target.MissShare, betweenLevel)
		switch {
		case err != nil:
			return nil, err
		case from == 0 && first > 0:
			first = max(0, first-further)
		case first+to == last && last < c.years:
			last = min(c.years, last+further)
		default:
			return &Between{From: min(first+from, short), To: max(first+to, short), Level: betweenLevel, Runs: n}, nil
		}
	}
}

// missed tells run by run which of the years from one to before another miss the
// target. The uncertain inputs of a run are the same in all years.
func (c *cell) missed(from, before, n int) [][]bool {
	out := make([][]bool, n)
	for i := range out {
		for year := from; year < before; year++ {
			out[i] = append(out[i], c.trials[year][i].missed)
		}
	}
	return out
}
