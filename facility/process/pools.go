package process

import "loamcast/facility/material"

// pools is one number for each degradable pool, in the order fine readily,
// fine slowly, coarse readily, coarse slowly, fine rapidly, coarse rapidly.
type pools [6]float64

// lasting is the number of pools that last for weeks. They stand first, and are all
// that matters to a load without anything that degrades rapidly.
const lasting = 4

// occupied returns how many of the pools p may have something in.
func occupied(p *material.Parcel) int {
	if p.Fine.Rapidly == 0 && p.Coarse.Rapidly == 0 {
		return lasting
	}
	return len(pools{})
}

func poolsOf(p *material.Parcel) pools {
	return pools{p.Fine.Readily, p.Fine.Slowly, p.Coarse.Readily, p.Coarse.Slowly, p.Fine.Rapidly, p.Coarse.Rapidly}
}

func oxygenPer(c *material.Chemistry) pools {
	return pools{c.Readily.O2, c.Slowly.O2, c.Readily.O2, c.Slowly.O2, c.Readily.O2, c.Readily.O2}
}

func (v pools) oxidation() material.Oxidation {
	return material.Oxidation{FineReadily: v[0], FineSlowly: v[1], CoarseReadily: v[2], CoarseSlowly: v[3],
		FineRapidly: v[4], CoarseRapidly: v[5]}
}
