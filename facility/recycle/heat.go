package recycle

import "loamcast/facility/process"

// Heat is the account of a load's heat from the mixer to the screen, kJ, all of it above
// that of solids and water at 0 °C.
type Heat struct {
	Cake, Chips float64 // brought to the mixer; Cake is all fine matter with its water
	SetFree     float64 // by oxidation, in vessel and pile
	Wall        float64 // lost through walls and the surface of the pile
	Air         float64 // taken by the air, dry and as evaporated water
	Matter      float64 // carried by vapour, leachate and gas, less by water formed
	// Handling is lost when the load is tipped out, wetted, and when the pile is turned. Where
	// lots begin to cure at a temperature of the model's it is whatever makes them so,
	// and may be a gain.
	Handling float64
	Out      float64 // carried by what goes to the screen
}

// Residual is what the account fails to explain, kJ.
func (h Heat) Residual() float64 {
	return h.Cake + h.Chips + h.SetFree - h.Wall - h.Air - h.Matter - h.Handling - h.Out
}

// HeatOf returns the heat account of a journey in this loop.
func (l Loop) HeatOf(j *Journey) Heat {
	m := l.Model.Active
	var h Heat
	h.Cake, h.Chips = m.Mixed(j.Vessel.Initial, l.Month)
	for _, e := range []process.Energy{j.Vessel.Energy, j.Curing.Energy} {
		h.SetFree += e.Generated
		h.Wall += e.Wall
		h.Air += e.AirDry + e.AirLatent
		h.Matter += e.Carried
		h.Handling += e.Handling
	}
	h.Handling += j.Vessel.Heat + j.Vessel.Energy.Stored - j.Curing.Heat
	h.Out = j.Curing.Heat + j.Curing.Energy.Stored
	return h
}
