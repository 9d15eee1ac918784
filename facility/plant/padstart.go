package plant

import (
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/moistair"
)

// justFrozen is the temperature, °C, of what is taken for ice at 0 °C.
const justFrozen = -1e-6

// PadStart returns the temperature, °C, at which a lot begins to cure that has left the
// vessel at tipped °C, in the weather of a month: less what tipping and building the
// pile lose, and again where it goes through the screen before, and mixed with the water,
// kg, that the lot then holds because it was given it (Rewet). What is at 0 °C is
// freezing, and taken for ice all through, for its temperature does not say how much of it
// is; that warns. It is not a number where
// lots begin to cure at the temperature of the model, whatever was tipped.
func (m *Model) PadStart(tipped float64, lot material.Parcel, water float64, month time.Month) float64 {
	h := m.Pile.Tipped
	if h == nil {
		return math.NaN()
	}
	if own := m.Curing.Handling; own != nil {
		h = own
	}
	if tipped <= 0 && m.Pile.Heat.Fusion > 0 {
		return min(tipped, justFrozen)
	}
	ambient := m.Pile.Site.Temperature[month-1]
	start := h.After(tipped, ambient)
	if m.Screening.First {
		start = h.After(start, ambient)
	}
	if fresh := max(ambient, 0); water > 0 && start > fresh {
		start -= (start - fresh) * water * moistair.WaterHeat / m.Pile.Heat.Of(lot.Dry(), lot.Water)
	}
	return start
}
