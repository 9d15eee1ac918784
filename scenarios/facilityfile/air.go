package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// perHour turns m3/day, in which air flows are read, into m3/h.
func perHour(perDay float64) float64 { return perDay / 24 }

// blowers reads what the blowers of all vessels give together.
func (r *reader) blowers(a *yamlfile.Map) {
	if !a.Has("blowers") {
		return
	}
	r.m.Air.Blowers = perHour(a.Quantity("blowers", units.AirFlow, yamlfile.Positive()))
	if one := r.m.Active.Blower.Capacity; a.Good("blowers", "blower_per_vessel") && r.m.Air.Blowers < one {
		a.Warn("blowers", "all blowers together give less than one vessel may take",
			"a vessel takes up to "+units.Format(24*one, units.AirFlow, r.units)+": raise blowers or lower blower_per_vessel")
	}
}

// biofilter reads the bed of the biofilter: how large it is, for the air that it
// takes, and how often its media are made anew of fresh chips.
func (r *reader) biofilter() {
	b := r.root.MapIf("biofilter")
	sized := b.Has("area") || b.Has("loading")
	renewed := b.Has("media") || b.Has("replaced_every")
	if b.Present() && !sized && !renewed {
		r.doc.ErrorAt(b.Position(), "biofilter says nothing of the bed", "write area and loading, or media and replaced_every, or all four")
	}
	if sized {
		r.m.Air.Area = b.Quantity("area", units.Area, yamlfile.Positive())
		r.m.Air.Loading = perHour(b.Quantity("loading", units.VolumePerAreaTime, yamlfile.Positive(),
			yamlfile.Usually(24*50, 24*100, "50 to 100 m3/h per m2, from memory and practice")))
	}
	if renewed {
		r.media(b)
	}
}

// media reads how often the bed is made anew.
func (r *reader) media(b *yamlfile.Map) {
	r.m.Media = plant.Media{
		Volume: b.Quantity("media", units.Volume, yamlfile.Positive()),
		Every: duration(b.Quantity("replaced_every", units.Duration, yamlfile.Between(30*day, 30*secondsPerYear),
			yamlfile.Usually(2*secondsPerYear, 5*secondsPerYear, "2 to 5 years, from memory and practice"))),
	}
	most := r.m.Chips.OrderUpTo
	if b.Good("media") && r.group("chips").Good("order_up_to") && r.m.Media.Volume > most {
		b.Error("media", "more than the fresh chips that are ordered up to", "write at most "+units.Format(most, units.Volume, r.units)+", or raise chips.order_up_to")
	}
}
