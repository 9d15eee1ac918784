package capability

import (
	"cmp"
	"math"
	"slices"

	"loamcast/sim/threshold"
)

// Profile is what years are like about the production that a plant carries: when
// in the year they begin to miss, and what leaves untreated. Production is counted
// in spreads of the curve from that which half of the years bear.
type Profile struct {
	mean, spread float64
	begun        [profileSteps][Quarters]float64
	untreated    []lost            // by rising production, rising
	when         [Quarters]float64 // the parts of a year's untreated solids that leave in its quarters
}

// lost is the share of a year's solids that is expected to leave untreated.
type lost struct{ at, share float64 }

const (
	// A profile reaches so far to both sides, in steps of a quarter of a spread.
	profileReach = 3.0
	profileSteps = 8*profileReach + 1
	// profileWidth is over how many spreads neighbouring years are averaged.
	profileWidth = 0.5
)

func newProfile(c *threshold.Curve, runs [][]Trial) *Profile {
	p := &Profile{mean: c.Mean, spread: c.Spread()}
	type miss struct {
		at      float64
		quarter int
	}
	var missed []miss
	sum := 0.0
	for _, run := range runs {
		for _, trial := range run {
			at := p.at(trial.Load)
			p.untreated = append(p.untreated, lost{at, trial.share})
			if trial.Missed {
				missed = append(missed, miss{at, trial.Begun})
			}
			if trial.Sums == nil {
				continue
			}
			for q, kg := range trial.Untreated {
				p.when[q] += kg
				sum += kg
			}
		}
	}
	for q := range p.when {
		if p.when[q] /= sum; sum == 0 {
			p.when[q] = 1.0 / Quarters
		}
	}
	p.untreated = monotone(p.untreated)
	for step := range p.begun {
		at, all := float64(step)/4-profileReach, 0.0
		for _, m := range missed {
			// The nearest count even where none is near.
			weight := math.Exp(-math.Abs(m.at-at)/profileWidth) + math.SmallestNonzeroFloat64
			all += weight
			for q := m.quarter; q < Quarters; q++ {
				p.begun[step][q] += weight
			}
		}
		for q := range p.begun[step] {
			p.begun[step][q] /= all
		}
	}
	return p
}

// at returns where a production lies, in spreads.
func (p *Profile) at(load float64) float64 { return (math.Log(load) - p.mean) / p.spread }

// begunBy returns the parts of the years missed at a place that have begun to be
// missed by the end of each quarter.
func (p *Profile) begunBy(at float64) [Quarters]float64 {
	step := math.Round((min(max(at, -profileReach), profileReach) + profileReach) * 4)
	return p.begun[int(step)]
}

// lostAt returns the share of the solids of a year at a place that is expected to
// leave untreated. Beyond what was tried, what is treated stays the same.
func (p *Profile) lostAt(at float64) float64 {
	i, found := slices.BinarySearchFunc(p.untreated, at, func(l lost, at float64) int { return cmp.Compare(l.at, at) })
	switch {
	case found || i == 0:
		return p.untreated[i].share
	case i == len(p.untreated):
		last := p.untreated[i-1]
		return 1 - (1-last.share)*math.Exp((last.at-at)*p.spread)
	}
	a, b := p.untreated[i-1], p.untreated[i]
	return a.share + (b.share-a.share)*(at-a.at)/(b.at-a.at)
}

// monotone sorts shares by production and makes them rise with it, by putting
// neighbours that fall at their common mean.
func monotone(list []lost) []lost {
	slices.SortFunc(list, func(a, b lost) int { return cmp.Compare(a.at, b.at) })
	type block struct {
		lost
		n float64
	}
	var blocks []block
	for _, l := range list {
		b := block{l, 1}
		for len(blocks) > 0 {
			last := blocks[len(blocks)-1]
			if last.share < b.share && last.at < b.at {
				break
			}
			n := last.n + b.n
			b = block{lost{(last.at*last.n + b.at*b.n) / n, (last.share*last.n + b.share*b.n) / n}, n}
			blocks = blocks[:len(blocks)-1]
		}
		blocks = append(blocks, b)
	}
	out := make([]lost, len(blocks))
	for i, b := range blocks {
		out[i] = b.lost
	}
	return out
}
