package mix

import (
	"fmt"
	"math"

	"loamcast/facility/material"
)

// Kind is what a material is in the mix. The order of the constants is the
// loading order: bulking agent first, cake last.
type Kind int

const (
	FreshChips     Kind = iota // bulking agent as bought
	RecoveredChips             // bulking agent from the screen
	Amendment                  // sawdust, leaves and other dry carbon
	Feedstock                  // a further waste that is not counted as cake
	Cake                       // dewatered biosolids
	numKinds
)

// IsChips reports whether the kind counts as chips in the chips-to-cake ratio.
func (k Kind) IsChips() bool { return k == FreshChips || k == RecoveredChips }

// Unlimited is the amount available of a material that does not run out.
var Unlimited = math.Inf(1)

// Material is something on hand that a batch may use.
type Material struct {
	Name        string // unique within a design
	Kind        Kind
	Composition material.Parcel // of any size; only its proportions count
	BulkDensity float64         // as delivered, kg/m3
	Available   float64         // kg; Unlimited or 0 are possible
	Least       float64         // kg that a [LeastCost] batch takes, whatever it misses by that
	Cost        float64         // per kg, in the caller's unit; negative if it pays
}

func (m Material) validate() error {
	total := m.Composition.Total()
	switch {
	case m.Kind < 0 || m.Kind >= numKinds:
		return fmt.Errorf("%s: unknown kind %d", m.Name, int(m.Kind))
	case !(total > 0) || math.IsInf(total, 0):
		return fmt.Errorf("%s: composition weighs %g kg; it must be positive and finite", m.Name, total)
	case m.Kind == Cake && !(m.Composition.Dry() > 0):
		return fmt.Errorf("%s: cake without solids", m.Name)
	case !(m.BulkDensity > 0) || math.IsInf(m.BulkDensity, 0):
		return fmt.Errorf("%s: bulk density %g kg/m3 must be positive and finite", m.Name, m.BulkDensity)
	case !(m.Available >= 0):
		return fmt.Errorf("%s: available amount %g kg must not be negative", m.Name, m.Available)
	case !(m.Least >= 0 && m.Least <= m.Available) || math.IsInf(m.Least, 1):
		return fmt.Errorf("%s: at least %g kg of the %g kg available cannot be taken", m.Name, m.Least, m.Available)
	case math.IsNaN(m.Cost) || math.IsInf(m.Cost, 0):
		return fmt.Errorf("%s: cost %g must be finite", m.Name, m.Cost)
	case m.Cost < 0 && math.IsInf(m.Available, 1):
		return fmt.Errorf("%s: a material that pays (cost %g) needs a limit on the available amount", m.Name, m.Cost)
	}
	return nil
}
