package facilityfile

import (
	"slices"

	"loamcast/scenarios/yamlfile"
)

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
	r.grown = r.growth(s.MapIf("growth"))
	f.Growth = r.grown.Growth
	r.base(s)
	read(s, solidsRows, f)
	if s.Good("by_month") && allZero(f.Month[:]) {
		s.Error("by_month", "all months are zero", "write relative values such as 1")
	}
	someDay(s, f.Weekday)
	read(s.MapIf("day_to_day"), noiseRows, &f.Noise)
	r.thickest, r.thinnest = slices.Max(f.CakeSolids[:]), slices.Min(f.CakeSolids[:])
	r.solidsKnown = s.Present() && s.Good("cake_solids")
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
