package cycleplan

import (
	"loamcast/facility/recycle"
	doc "loamcast/scenarios/document"
)

// heatColumns are the account of a load's heat from the mixer to the screen.
var heatColumns = []doc.Col[recycle.Heat]{
	doc.Val("brought_by_cake", doc.Energy, func(h *recycle.Heat) float64 { return h.Cake }),
	doc.Val("brought_by_chips", doc.Energy, func(h *recycle.Heat) float64 { return h.Chips }),
	doc.Val("set_free", doc.Energy, func(h *recycle.Heat) float64 { return h.SetFree }),
	doc.Val("through_walls", doc.Energy, func(h *recycle.Heat) float64 { return h.Wall }),
	doc.Val("with_air", doc.Energy, func(h *recycle.Heat) float64 { return h.Air }),
	doc.Val("with_gas_and_water", doc.Energy, func(h *recycle.Heat) float64 { return h.Matter }),
	doc.Val("lost_in_handling", doc.Energy, func(h *recycle.Heat) float64 { return h.Handling }),
	doc.Val("to_the_screen", doc.Energy, func(h *recycle.Heat) float64 { return h.Out }),
}

// tipping tells at what temperature a load is tipped out and begins to cure.
func (l *Load) tipping() doc.Text {
	return doc.Say("Tipped out at %s, it begins to cure at %s.", doc.Show(l.Tipped, doc.Degrees), doc.Show(l.CuringStart, doc.Degrees))
}
