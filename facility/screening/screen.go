package screening

import "loamcast/facility/material"

// Split is what a screen makes of a parcel. The three add up to it.
type Split struct {
	Product   material.Parcel // through the screen
	Recovered material.Parcel // overs that go back to the mixer
	Rejects   material.Parcel // overs that leave the plant
}

// CoarseScreened returns the coarse matter that came onto the screen, kg dry, what a
// cycle's wear had turned to fine left out.
func (s Split) CoarseScreened() float64 {
	return s.Product.Coarse.Dry() + s.Recovered.Coarse.Dry() + s.Rejects.Coarse.Dry()
}

// CoarseRecovery returns the share of the coarse matter screened that goes back to
// the mixer, rejects taken off: what a plant must not buy anew. It is 0 where there
// is none.
func (s Split) CoarseRecovery() float64 { return share(s.Recovered.Coarse.Dry(), s.CoarseScreened()) }

// Screen divides a parcel. First the wear of a cycle turns coarse matter to
// fine; then the overs take their share of the coarse and of the fine matter,
// each at its own composition, with the water that belongs to it. Settings are
// taken to be valid.
func Screen(in material.Parcel, s Settings) Split {
	moisture := in.Moisture()
	in.Wear(s.Attrition)

	coarse := in.Coarse.Times(s.RecoveryAt(moisture))
	fine := in.Fine.Times(min(1, share(s.CarryOverAt(moisture)*coarse.Dry(), in.Fine.Dry())))
	// Water goes with the solids, MoistureSplit times as much with coarse ones.
	held := in.Fine.Dry() + s.MoistureSplit*in.Coarse.Dry()
	water := in.Water * share(fine.Dry()+s.MoistureSplit*coarse.Dry(), held)

	overs := material.Parcel{Water: water, Fine: fine, Coarse: coarse}
	split := Split{Product: in.Minus(overs), Rejects: overs.Times(s.Rejects)}
	split.Recovered = overs.Minus(split.Rejects)
	return split
}

func share(part, whole float64) float64 {
	if whole <= 0 {
		return 0
	}
	return part / whole
}
