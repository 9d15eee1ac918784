package process

import "loamcast/facility/material"

// pools is one number for each degradable pool, in the order fine readily,
// fine slowly, coarse readily, coarse slowly.
type pools [4]float64

func poolsOf(p *material.Parcel) pools {
	return pools{p.Fine.Readily, p.Fine.Slowly, p.Coarse.Readily, p.Coarse.Slowly}
}

func oxygenPer(c material.Chemistry) pools {
	return pools{c.Readily.O2, c.Slowly.O2, c.Readily.O2, c.Slowly.O2}
}

func (v pools) oxidation() material.Oxidation {
	return material.Oxidation{FineReadily: v[0], FineSlowly: v[1], CoarseReadily: v[2], CoarseSlowly: v[3]}
}
