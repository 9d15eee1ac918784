package plant

import (
	"math"
	"time"

	"loamcast/facility/material"
	"loamcast/facility/moistair"
)

// PadStart returns the temperature, °C, at which a lot begins to cure that has left the
// vessel at tipped °C, in the weather of a month: less what tipping and building the
// pile lose, and again where it goes through the screen before, and mixed with the water,
// kg, that the lot then holds because it was given it (Rewet). What is freezing goes on as
// ice. It is not a number where lots begin to cure at the temperature of the model,
// whatever was tipped.
func (m *Model) PadStart(tipped float64, lot material.Parcel, water float64, month time.Month) float64 {
	h := m.Pile.Tipped
	if h == nil {
		return math.NaN()
	}
	if own := m.Curing.Handling; own != nil {
		h = own
	}
	if ice, freezing := m.Pile.Heat.Ice(tipped); freezing {
		return ice
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

// padWarmth returns the temperature, °C, at which the course of a lot begins that lies on
// the pad already and has some temperature; not a number where that is the model's.
func (m *Model) padWarmth(warmth float64) float64 {
	if m.Pile.Tipped == nil {
		return math.NaN()
	}
	if ice, freezing := m.Pile.Heat.Ice(warmth); freezing {
		return ice
	}
	return warmth
}
