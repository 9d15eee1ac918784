package setback

import (
	"gonum.org/v1/gonum/stat/distuv"

	"loamcast/scenarios/answer"
	"loamcast/sim/calendar"
	"loamcast/sim/stats"
)

// A month counts as one in which a setback is felt where, in the mean of the runs, so much
// more of its dry solids leaves untreated, or a kg of its cake waits so many days longer,
// and that is surely more than nothing: single runs differ for months after, either way.
const feltUntreated, feltDelay, feltLevel = 0.002, 0.1, 0.99

// compare holds runs with a setback that begins on a day, after some months of the years
// seen, against the same runs without it.
func (a *Answer) compare(from calendar.Date, after int, with, without []run) Begin {
	b := Begin{From: from}
	n := len(with)
	missed, missedWithout := 0, 0
	var delay, untreated, failed, lost, tipping, fullest, fullestWithout, held, heldWithout []float64
	for i := range with {
		x, y := with[i].months[after:after+calendar.MonthsPerYear], without[i].months[after:after+calendar.MonthsPerYear]
		sx, sy := sumOf(x), sumOf(y)
		untreated = append(untreated, sx.untreated-sy.untreated)
		delay = append(delay, per(sx.delayed, sx.fed)-per(sy.delayed, sy.fed))
		lost, failed = append(lost, sx.lost-sy.lost), append(failed, sx.failed-sy.failed)
		tipping = append(tipping, with[i].tipping-without[i].tipping)
		fullest, fullestWithout = append(fullest, sx.fullest), append(fullestWithout, sy.fullest)
		held, heldWithout = append(held, sx.held), append(heldWithout, sy.held)
		b.solids += sy.fed / float64(n)
		missed += truth(with[i].missed[after])
		missedWithout += truth(without[i].missed[after])
	}
	b.untreated, b.delay = untreated, delay
	b.Untreated, b.Delay, b.Tipping = excessOf(untreated), excessOf(delay), excessOf(tipping)
	b.Lost, b.Failed = excessOf(lost), excessOf(failed)
	b.Fullest, b.FullestWithout = answer.SpreadOf(fullest), answer.SpreadOf(fullestWithout)
	b.PeakHeld, b.PeakHeldWithout = answer.SpreadOf(held), answer.SpreadOf(heldWithout)
	b.Felt = feltFor(with, without, after)
	b.Missed, b.Verdict = a.chance(missed, n)
	b.Without, b.VerdictWithout = a.chance(missedWithout, n)
	return b
}

func truth(b bool) int {
	if b {
		return 1
	}
	return 0
}

func per(x, of float64) float64 {
	if of == 0 {
		return 0
	}
	return x / of
}

// sumOf adds months up, and takes the greatest of what is held.
func sumOf(months []month) (sum month) {
	for _, m := range months {
		sum.fed += m.fed
		sum.untreated += m.untreated
		sum.delayed += m.delayed
		sum.lost += m.lost
		sum.failed += m.failed
		sum.held, sum.fullest = max(sum.held, m.held), max(sum.fullest, m.fullest)
	}
	return sum
}

// feltFor returns after how many months a setback is not felt any more that begins after
// some of the months seen.
func feltFor(with, without []run, after int) (months int) {
	untreated, delay := make([]float64, len(with)), make([]float64, len(with))
	for i := range calendar.MonthsPerYear {
		for k := range with {
			x, y := &with[k].months[after+i], &without[k].months[after+i]
			untreated[k], delay[k] = per(x.untreated-y.untreated, y.fed), per(x.delayed, x.fed)-per(y.delayed, y.fed)
		}
		u, _ := stats.MeanInterval(untreated, feltLevel)
		d, _ := stats.MeanInterval(delay, feltLevel)
		if u.Low > 0 && u.Estimate > feltUntreated || d.Low > 0 && d.Estimate > feltDelay {
			months = i + 1
		}
	}
	return months
}

// excessOf reduces paired differences.
func excessOf(xs []float64) Excess {
	mean, _ := stats.MeanInterval(xs, Level) // of more runs than one
	return Excess{Spread: answer.SpreadOf(xs), Interval: mean}
}

// chance returns the share of runs that miss the target, and on which side of what the
// target leaves it lies. That is open where the other side is more likely than Wrong, by
// what so many runs let believe of it that knew nothing before (the beta distribution with
// half a run on either side).
func (a *Answer) chance(missed, n int) (stats.Interval, stats.Verdict) {
	i, _ := stats.Wilson(missed, n, Level)
	believed := distuv.Beta{Alpha: float64(missed) + 0.5, Beta: float64(n-missed) + 0.5}
	switch kept := believed.CDF(a.Target.MissShare); {
	case kept >= 1-a.Wrong:
		return i, stats.Below
	case kept <= a.Wrong:
		return i, stats.Above
	}
	return i, stats.Undecided
}

// rank finds which beginnings cost least and most: by what leaves untreated, or, where
// nothing more does at any time, by how much longer cake waits. All months are held against
// the one that looks best, so that each is told dearer with a chance of error that leaves
// wrong for all of them together.
func (y *Year) rank(wrong float64) {
	level := 1 - 2*wrong/float64(max(1, len(y.Begins)-1))
	y.ByDelay = true
	for i := range y.Begins {
		y.ByDelay = y.ByDelay && y.Begins[i].Nothing()
	}
	of := func(i int) []float64 {
		if y.ByDelay {
			return y.Begins[i].delay
		}
		return y.Begins[i].untreated
	}
	mean := func(i int) float64 {
		if y.ByDelay {
			return y.Begins[i].Delay.Mean
		}
		return y.Begins[i].Untreated.Mean
	}
	for i := range y.Begins {
		switch {
		case mean(i) < mean(y.Least), mean(i) == mean(y.Least) && y.Begins[i].Delay.Mean < y.Begins[y.Least].Delay.Mean:
			y.Least = i
		}
		if mean(i) > mean(y.Most) {
			y.Most = i
		}
	}
	y.Apart = apart(of(y.Most), of(y.Least), level)
	for i := range y.Begins {
		if i != y.Least && apart(of(i), of(y.Least), level).Low <= 0 {
			y.Alike = append(y.Alike, i)
		}
	}
}

// apart is the mean difference of two beginnings, replication by replication.
func apart(a, b []float64, level float64) stats.Interval {
	i, _ := stats.PairedMean(a, b, level)
	return i
}

// Told reports whether the beginnings that cost least and most can be told apart.
func (y *Year) Told() bool { return y.Apart.Low > 0 }
