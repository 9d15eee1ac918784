package facilityfile

import (
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
)

// blowers reads what the blowers of all vessels give together.
func (r *reader) blowers(a *yamlfile.Map) {
	read(a, blowerRows, &r.m.Air)
	if one := r.m.Active.Blower.Capacity; a.Has("blowers") && a.Good("blowers", "blower_per_vessel") && r.m.Air.Blowers < one {
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
		read(b, bedRows, &r.m.Air)
	}
	if renewed {
		r.media(b)
	}
}

// media reads how often the bed is made anew.
func (r *reader) media(b *yamlfile.Map) {
	read(b, mediaRows, &r.m.Media)
	most := r.m.Chips.OrderUpTo
	if b.Good("media") && r.group("chips").Good("order_up_to") && r.m.Media.Volume > most {
		b.Error("media", "more than the fresh chips that are ordered up to", "write at most "+units.Format(most, units.Volume, r.units)+", or raise chips.order_up_to")
	}
}
