package facilityfile

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/scenarios/yamlfile"
)

// yard reads what moves vessels, where they stand and who works there, and the
// breakdowns of machines. What the file leaves out is never short.
func (r *reader) yard() {
	y := r.root.MapIf("yard")
	r.yardGroup = y
	out := &r.m.Yard
	read(y, yardRows, out)
	if y.Has("trucks") || y.Has("move") {
		read(y, moveRows, out)
	}
	maintenance(y.MapIf("place_maintenance"), &out.PlaceService, "a place")
	if y.Has("place_maintenance") && y.Good("place_maintenance", "aerated_places") && !y.Has("aerated_places") {
		y.Error("place_maintenance", "there are always enough aerated places, so that their maintenance is never felt", "write how many there are: aerated_places: 8")
	}
	if y.Has("loading_places") && y.Good("trucks", "move", "aerated_places") && !y.Has("trucks") && !y.Has("move") && !y.Has("aerated_places") {
		y.Warn("loading_places", "vessels are aerated where they are loaded, so that they never stand at a loading place", "add trucks and move, or aerated_places")
	}
	r.carried(y)
	r.breakdowns(y)
}

// carried warns of vessels that are carried with a load of any weight.
func (r *reader) carried(y *yamlfile.Map) {
	key := "move"
	if y.Has("trucks") {
		key = "trucks"
	}
	if !y.Has(key) || !r.group("vessels").Good("payload", classes) {
		return
	}
	for class := range r.m.Vessels.ClassCount() {
		if one := r.m.AsClass(class).Vessels; math.IsInf(one.Payload, 1) {
			of := ""
			if name := r.m.Vessels.ClassName(class); name != "" {
				of = ` of class "` + name + `"`
			}
			y.Warn(key, "vessels"+of+" are carried, and nothing limits how heavy their loads are", "add payload to the vessels")
		}
	}
}

// breakdowns reads how often machines break down and how long repairs take.
func (r *reader) breakdowns(yard *yamlfile.Map) {
	group := r.root.MapIf("breakdowns")
	for _, b := range breakdowns {
		failure(group.MapIf(b.key), b.at(r.m))
		if b.count != "" && group.Has(b.key) && group.Good(b.key) && !yard.Has(b.count) && r.root.Good("yard") {
			group.Error(b.key, "there are always enough "+b.count+", so that a breakdown is never felt", "write how many there are: yard: {"+b.count+": 1}")
		}
	}
}

// failure reads the mean time between breakdowns, by the calendar, and the mean
// time of a repair.
func failure(m *yamlfile.Map, out *plant.Failure) {
	read(m, failureRows, out)
	if m.Present() && m.Good("every", "repair") && out.Repair >= out.Every {
		m.Error("repair", "a repair takes as long as the time between breakdowns", "write less than every")
	}
}

// maintenance reads how often a vessel or place is taken out of use, and for how
// long.
func maintenance(m *yamlfile.Map, out *plant.Maintenance, of string) {
	read(m, maintenanceRows, out)
	if m.Present() && m.Good("every", "takes") && out.Takes >= out.Every {
		m.Error("takes", "the maintenance of "+of+" takes as long as the time until the next", "write less than every")
	}
}
