package material

import (
	"fmt"
	"math"
)

// Microbes take up nitrogen for the carbon that decays: the account of ammonia by
// the nitrogen that decay releases. The nitrogen of a size class lies evenly in its
// organic carbon C, so that a kg of carbon which decays releases N/C; of that the
// microbes keep what they need to build Efficiency of the carbon into cells, and the
// rest leaves as ammonia:
//
//	dN/dC = max(0, N/C − Efficiency/CarbonToNitrogen)
//
// What they keep lies in the matter as before and is released again in its turn.
// Between two states of a class follows, whatever lies between them,
//
//	N1 = C1·(N0/C0 + Efficiency/CarbonToNitrogen·ln(C0/C1))
//
// once C:N is below what the microbes need, and N1 = N0 until then. So the account
// does not depend on how the time is cut.
//
// Chips lie beside the cake and not in it: a class keeps nitrogen by its own carbon
// alone, wood that has worn to fines by that of the fines. Left out are also the
// ammonium that fresh cake brings along, acidity, and nitrate. The first of these
// choices warns, of too much ammonia.
//
// The zero value keeps Chemistry.Retained of what the formulas release instead.
type Microbes struct {
	CarbonToNitrogen float64 // of their own matter, by mass; 0 for an account by the formulas
	Efficiency       float64 // carbon built into cells per carbon that decays, 0…1
}

// DefaultMicrobes need 30 parts of carbon for each of nitrogen (Compost Fundamentals,
// Washington State University, read): a third of the carbon goes into cells of 10 : 1
// and the rest is respired. How the 30 divides into the two is from memory; only their
// quotient counts.
func DefaultMicrobes() Microbes { return Microbes{CarbonToNitrogen: 10, Efficiency: 1. / 3} }

// Counted reports whether nitrogen is accounted for by microbes.
func (m *Microbes) Counted() bool { return m.CarbonToNitrogen > 0 }

// Validate reports what makes the account impossible.
func (m Microbes) Validate() error {
	if !(m.CarbonToNitrogen >= 0 && m.Efficiency >= 0 && m.Efficiency <= 1) || math.IsInf(m.CarbonToNitrogen, 0) {
		return fmt.Errorf("ammonia: microbes of C:N %g that build %g of the carbon into cells are impossible", m.CarbonToNitrogen, m.Efficiency)
	}
	return nil
}

// loses returns the nitrogen that leaves a class of solids while some of its carbon
// decays, kg each.
func (m *Microbes) loses(carbon, nitrogen, decayed float64) float64 {
	decayed = min(decayed, carbon)
	need := m.Efficiency / m.CarbonToNitrogen
	if need*carbon > nitrogen { // all is taken up until enough carbon has gone
		decayed -= carbon - nitrogen/need
		carbon = nitrogen / need
	}
	if !(decayed > 0) {
		return 0
	}
	left := carbon - decayed
	if left <= 0 {
		return nitrogen
	}
	return max(0, nitrogen*decayed/carbon+need*left*math.Log1p(-decayed/carbon))
}

// ammonia returns the ammonia that leaves s while carbon decays, kg: by the nitrogen
// released, and no more than the mass of formula ammonia and refractory matter allows.
func (m *Microbes) ammonia(s *Solids, decayed, formula float64) float64 {
	lost := m.loses(s.Carbon, s.Nitrogen, decayed) / NitrogenPerNH3
	return min(lost, formula+max(0, s.Refractory))
}
