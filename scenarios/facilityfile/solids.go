package facilityfile

import "loamcast/scenarios/yamlfile"

// site reads the air around the plant; both courses share it.
func (r *reader) site() {
	r.defaults()
	read(r.group("site"), siteRows, &r.m.Active.Site)
	r.m.Pile.Site = r.m.Active.Site
}

// solids reads the production of cake.
func (r *reader) solids() {
	s := r.group("solids")
	f := &r.m.Feed
	if s.Has("sources") {
		r.sources(s)
	} else {
		r.grown = r.sends(s, f)
		r.solidsKnown = s.Present() && s.Good("cake_solids")
	}
	read(s, solidsRows, f)
	read(s.MapIf("day_to_day"), noiseRows, &f.Noise)
	r.thickest, r.thinnest = r.contents()
	f.Pulses = r.pulses(s)
}

// someDay refuses relative amounts of the weekdays that are all zero.
func someDay(m *yamlfile.Map, week [7]float64) {
	if m.Good("by_weekday") && allZero(week[:]) {
		m.Error("by_weekday", "all weekdays are zero", "write relative values such as 1")
	}
}

func constant(v float64) (out [12]float64) {
	for i := range out {
		out[i] = v
	}
	return out
}

func allZero(v []float64) bool {
	for _, x := range v {
		if x != 0 {
			return false
		}
	}
	return true
}

func mean(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x
	}
	return sum / float64(len(v))
}
