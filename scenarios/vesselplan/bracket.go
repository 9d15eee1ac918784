package vesselplan

import "loamcast/sim/stats"

// bracket closes in on the first year missed, between a year known to be kept
// and one known to be missed. A year before one that is kept counts as kept, one
// after one that is missed as missed.
type bracket struct {
	kept, missed int // years; outside the horizon if none is known

	judge func(year int) (stats.Verdict, error)
	scout func(year int) (missed bool, err error) // a quick look, which may be wrong

	judged map[int]bool
}

// close judges years until no unjudged one is left between kept and missed. It
// begins at about the first year missed, from where the verdicts go outwards.
func (b *bracket) close(guess int) error {
	at, err := b.lookFirst(guess)
	if err != nil {
		return err
	}
	b.judged = map[int]bool{}
	for {
		year, ok := b.nearest(at)
		if !ok {
			return nil
		}
		verdict, err := b.judge(year)
		if err != nil {
			return err
		}
		b.judged[year] = true
		switch verdict {
		case stats.Below:
			b.kept, at = year, year+1
		case stats.Above:
			b.missed, at = year, year-1
		case stats.Undecided:
			at = year - 1
		}
	}
}

// nearest returns the year in the bracket that is nearest to at and not judged,
// the earlier of two.
func (b *bracket) nearest(at int) (year int, ok bool) {
	for away := range b.missed - b.kept + 1 {
		for _, year := range []int{at - away, at + away} {
			if year > b.kept && year < b.missed && !b.judged[year] {
				return year, true
			}
		}
	}
	return 0, false
}

// lookFirst returns about the first year missed, by quick looks: on both sides of
// the guess, if there is one, then halving what is left.
func (b *bracket) lookFirst(guess int) (int, error) {
	from, to := b.kept+1, b.missed // the first missed year is at from or after, at to or before
	look := func(year int) error {
		missed, err := b.scout(year)
		if missed {
			to = min(to, year)
		} else {
			from = max(from, year+1)
		}
		return err
	}
	for _, year := range []int{guess + 1, guess - 2} {
		if guess >= 0 && year >= from && year < to {
			if err := look(year); err != nil {
				return 0, err
			}
		}
	}
	for from < to {
		if err := look((from + to) / 2); err != nil {
			return 0, err
		}
	}
	return to, nil
}
