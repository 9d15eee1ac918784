package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
)

// mostUnits is how many machines, people or places of a kind may be written, so
// that a typing error is named.
const mostUnits = 1000

// yard reads what moves vessels, where they stand and who works there, and the
// breakdowns of machines. What the file leaves out is never short.
func (r *reader) yard() {
	y := r.root.MapIf("yard")
	r.yardGroup = y
	count := func(key string) int { return y.IntOr(key, 0, yamlfile.Between(1, mostUnits)) }
	out := &r.m.Yard
	out.Trucks.Count = count("trucks")
	out.Move = r.move(y)
	out.Places = count("aerated_places")
	out.PlaceService = r.maintenance(y.MapIf("place_maintenance"), "a place")
	if y.Has("place_maintenance") && y.Good("place_maintenance", "aerated_places") && !y.Has("aerated_places") {
		y.Error("place_maintenance", "there are always enough aerated places, so that their maintenance is never felt", "write how many there are: aerated_places: 8")
	}
	out.LoadingPlaces = count("loading_places")
	out.Loaders.Count = count("loaders")
	out.Operators.Count = count("operators")
	if y.Has("loading_places") && y.Good("trucks", "move", "aerated_places") && !y.Has("trucks") && !y.Has("move") && !y.Has("aerated_places") {
		y.Warn("loading_places", "vessels are aerated where they are loaded, so that they never stand at a loading place", "add trucks and move, or aerated_places")
	}
	r.breakdowns(y)
}

// move reads how long a move takes, which a truck needs.
func (r *reader) move(y *yamlfile.Map) sim.Duration {
	check := yamlfile.Between(60, 24*hour)
	if y.Has("trucks") {
		return duration(y.Quantity("move", units.Duration, check))
	}
	return duration(y.QuantityOr("move", units.Duration, 0, check))
}

// breakdowns reads how often machines break down and how long repairs take.
func (r *reader) breakdowns(yard *yamlfile.Map) {
	b := r.root.MapIf("breakdowns")
	r.m.Mixer.Failure = failure(b.MapIf("mixer"))
	r.m.Screening.Failure = failure(b.MapIf("screen"))
	for _, c := range []struct {
		key, count string
		crew       *plant.Crew
	}{
		{"truck", "trucks", &r.m.Yard.Trucks},
		{"loader", "loaders", &r.m.Yard.Loaders},
	} {
		c.crew.Failure = failure(b.MapIf(c.key))
		if b.Has(c.key) && b.Good(c.key) && !yard.Has(c.count) && r.root.Good("yard") {
			b.Error(c.key, "there are always enough "+c.count+", so that a breakdown is never felt", "write how many there are: yard: {"+c.count+": 1}")
		}
	}
}

// failure reads the mean time between breakdowns, by the calendar, and the mean
// time of a repair.
func failure(m *yamlfile.Map) plant.Failure {
	every := m.Quantity("every", units.Duration, yamlfile.Between(hour, 50*secondsPerYear))
	repair := m.Quantity("repair", units.Duration, yamlfile.Between(60, secondsPerYear))
	if m.Good("every", "repair") && m.Present() && repair >= every {
		m.Error("repair", "a repair takes as long as the time between breakdowns", "write less than every")
	}
	return plant.Failure{Every: duration(every), Repair: duration(repair)}
}

// maintenance reads how often a vessel or place is taken out of use, and for how
// long.
func (r *reader) maintenance(m *yamlfile.Map, of string) plant.Maintenance {
	every := m.Quantity("every", units.Duration, yamlfile.Between(day, 50*secondsPerYear))
	takes := m.Quantity("takes", units.Duration, yamlfile.Between(hour, secondsPerYear))
	if m.Good("every", "takes") && m.Present() && takes >= every {
		m.Error("takes", "the maintenance of "+of+" takes as long as the time until the next", "write less than every")
	}
	return plant.Maintenance{Every: duration(every), Takes: duration(takes)}
}
