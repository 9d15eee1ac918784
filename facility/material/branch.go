package material

// Branch is one smooth piece of the volume model. Volume bends where the voids
// between chips are full, where fine matter turns from paste to crumb, and
// where a mix holds less water than its chips could. An optimiser that works
// with derivatives treats the pieces one by one.
type Branch struct {
	Overfull bool  // the fine matter needs more room than the voids have
	Thirsty  bool  // the mix holds less water than its chips could
	Crumb    State // of the fine matter
}

// Curved reports whether volume on the branch is not linear in the masses.
func (br Branch) Curved() bool { return br.Thirsty || br.Crumb == Crumbling }

// State says how loose fine matter lies.
type State int

// The states of fine matter by its solids content: up to Crumb.Paste, between,
// and from Crumb.Loose.
const (
	Paste State = iota
	Crumbling
	Loose
)

// NumMargins is the number of conditions that put a parcel on a branch.
const NumMargins = 4

// Branches returns every branch.
func Branches() []Branch {
	var all []Branch
	for _, overfull := range []bool{false, true} {
		for _, thirsty := range []bool{false, true} {
			for _, crumb := range []State{Paste, Crumbling, Loose} {
				all = append(all, Branch{Overfull: overfull, Thirsty: thirsty, Crumb: crumb})
			}
		}
	}
	return all
}

// OnBranch returns the volume of p, m3, by the formula that holds on br,
// extended smoothly beyond it, and margins that are all ≥ 0 exactly where p
// lies on br. A condition that a branch does not have is 0. Volume (m3) and
// margins (m3 or kg) grow in proportion to p.
func (b *Bulk) OnBranch(p Parcel, br Branch) (volume float64, margins [NumMargins]float64) {
	h, margins := b.heapOn(&p, br)
	return h.volume(), margins
}

// heapOn returns the heap of p by the formula that holds on br, and the margins.
func (b *Bulk) heapOn(p *Parcel, br Branch) (h heap, margins [NumMargins]float64) {
	coarseDry, fineDry := p.Coarse.Dry(), p.Fine.Dry()
	coarse, voids := coarseDry/b.CoarseDry, b.CoarseVoids*coarseDry/b.CoarseDry

	water := max(0, p.Water-b.CoarseHolding*coarseDry)
	margins[0] = p.Water - b.CoarseHolding*p.Dry()
	if br.Thirsty {
		water = p.Water * ratio(fineDry, p.Dry())
		margins[0] = -margins[0]
	}

	wet := fineDry + water
	porosity := 0.0
	switch br.Crumb {
	case Paste:
		margins[1] = b.Crumb.Paste*wet - fineDry
	case Crumbling:
		margins[1] = fineDry - b.Crumb.Paste*wet
		margins[2] = b.Crumb.Loose*wet - fineDry
		slope := (ratio(fineDry, wet) - b.Crumb.Paste) / (b.Crumb.Loose - b.Crumb.Paste)
		porosity = min(b.Crumb.Porosity*slope, maxExtended)
	case Loose:
		margins[1] = fineDry - b.Crumb.Loose*wet
		porosity = b.Crumb.Porosity
	}

	solid := p.Fine.Fixed/b.Ash + p.Fine.Volatile()/b.Organics + water/waterDensity
	fine := solid / (1 - porosity)
	h = heap{coarse: coarse, voids: voids, fine: fine, solid: solid, filling: b.Filling * fine}
	margins[3] = voids - fine
	if br.Overfull {
		margins[3] = fine - voids
		h.filling = b.Filling * voids
	}
	return h, margins
}

// maxExtended keeps the extension of a crumb's porosity away from 1, where the
// formula has no meaning any more.
const maxExtended = 0.95

// SolidVolume returns the volume of p without any air, m3: water, organic
// solids and ash at their particle densities.
func (b *Bulk) SolidVolume(p *Parcel) float64 {
	return p.Water/waterDensity + p.Volatile()/b.Organics + p.Fixed()/b.Ash
}
