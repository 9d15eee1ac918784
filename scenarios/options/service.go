package options

import (
	"math"

	"loamcast/scenarios/capability"
	"loamcast/sim/stats"
)

// service judges a choice under some growth scenarios by the share of runs that miss
// the target in each year: by what the plant carries with its steps, or by its runs.
func (c *comparison) service(choice int, growths []int) (Service, error) {
	if c.odds[choice] == nil {
		return c.byRuns(choice, growths)
	}
	var odds []capability.Odds
	for _, g := range growths {
		odds = append(odds, c.odds[choice][g])
	}
	all := capability.Mixed(odds, c.shares(growths))
	var shares []stats.Interval
	for y := range all {
		shares = append(shares, all.Share(y).Interval())
	}
	return judged(shares, c.file.Planning.Target.MissShare), nil
}

// byRuns judges a choice by its runs. Those of one replication under several growth
// scenarios share their luck and count as one, in parts.
func (c *comparison) byRuns(choice int, growths []int) (Service, error) {
	var shares []stats.Interval
	for y := range c.file.Model.Years {
		runs := c.each(choice, growths, missed(y))
		share, err := wilson(mean(runs), len(runs))
		if err != nil {
			return Service{}, err
		}
		shares = append(shares, share)
	}
	s := judged(shares, c.file.Planning.Target.MissShare)
	s.ByRuns = true
	return s, nil
}

// judged holds the shares of runs that miss each year against what may.
func judged(shares []stats.Interval, most float64) Service {
	s := Service{FirstMissed: -1, MayMiss: -1, SurelyMissed: -1}
	for y, share := range shares {
		s.Years = append(s.Years, share.Estimate)
		s.YearsMissed += share.Estimate
		if share.Estimate > s.Years[s.Worst] {
			s.Worst = y
		}
		if s.FirstMissed < 0 && share.Estimate > most+capability.Rounding {
			s.FirstMissed = y
		}
		if s.MayMiss < 0 && share.Estimate > capability.Rounding && share.High > most+capability.Rounding {
			s.MayMiss = y
		}
		if s.SurelyMissed < 0 && share.Low > most+capability.Rounding {
			s.SurelyMissed = y
		}
	}
	s.Keeps, s.Share = s.FirstMissed < 0, shares[s.Worst]
	s.Sure = s.Keeps && s.Share.High <= most+capability.Rounding || s.Share.Low > most+capability.Rounding
	return s
}

// contradicted reports whether the runs of a choice miss some year more often than
// chance would have it if what the plant carries told it rightly.
func (c *comparison) contradicted(choice int) bool {
	n, all := c.replications(choice), capability.Mixed(c.odds[choice], c.shares(c.everywhere()))
	for y := range c.file.Model.Years {
		runs := mean(c.weighted(choice, c.everywhere(), missed(y)))
		if told := all.Share(y).Interval(); capability.Contradict(int(runs*float64(n)), n, max(told.High, c.file.Planning.Target.MissShare)) {
			return true
		}
	}
	return false
}

// wilson is the interval of a share of n runs that need not be a whole number of
// them: the ends are those of the whole numbers on either side.
func wilson(share float64, n int) (stats.Interval, error) {
	hits := share * float64(n)
	low, err := stats.Wilson(int(math.Floor(hits+capability.Rounding)), n, level)
	if err != nil {
		return low, err
	}
	high, err := stats.Wilson(int(math.Ceil(hits-capability.Rounding)), n, level)
	return stats.Interval{Estimate: share, Low: low.Low, High: high.High, Level: level}, err
}
