package cycleplan

import (
	"loamcast/facility/plant"
	"loamcast/facility/recycle"
	"loamcast/facility/release"
	doc "loamcast/scenarios/document"
	"loamcast/scenarios/dryness"
)

// remedy returns the drying that would bring a lot to the screen's moisture limit, if
// it is too wet.
func remedy(m *plant.Model, j *recycle.Journey) (plant.Remedy, error) {
	end := j.Curing.Final()
	if release.IsDry(end.Parcel.Moisture(), m.Screening.Settings.MoistureLimit) {
		return plant.Remedy{}, nil
	}
	return m.RemedyFor(end.Parcel, end.Temperature, j.CuringMonth)
}

// wet says how the load was dried for the screen, and whether that does, of a plant
// that minds.
func (l *Load) wet(d *doc.Document) {
	if !l.MindsWet {
		return
	}
	text := doc.Say("dryness: ")
	if l.DriedInVessel > 0 {
		text = text.Then("%s of the stay in the vessel dry the load; ", inDays(l.DriedInVessel))
	}
	if l.DriedOnPad > 0 {
		text = text.Then("it waits %s on the pad until it is dry; ", inDays(l.DriedOnPad))
	}
	if !l.Remedy.Needed() {
		d.Para("%s", text.Then("it is screened at %s.", doc.With(l.MoistureScreened, doc.Share, 1)))
		return
	}
	d.Para("%s", text.Then("at %s such lots are too wet to screen; %s.", doc.With(l.MoistureScreened, doc.Share, 1), dryness.Advice(l.Remedy)))
}
