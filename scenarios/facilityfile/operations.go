package facilityfile

import (
	"math"

	"loamcast/facility/plant"
	"loamcast/facility/screening"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
	"loamcast/sim/calendar"
)

const hour = 3600.0 // s

// duration turns seconds into a model's duration. What is no duration, such as a
// negative time, has been complained of where it was read.
func duration(seconds float64) sim.Duration {
	if !(seconds >= 0 && seconds <= 100*calendar.SecondsPerYear) {
		return 0
	}
	return sim.DurationOf(seconds)
}

func (r *reader) holding() { read(r.group("holding"), holdingRows, &r.m.Holding) }

func (r *reader) mix() {
	m := r.group("mix")
	read(m, recipeRows, &r.m.Recipe)
	read(m, mixerRows, &r.m.Mixer)
}

func (r *reader) vessels() {
	v := r.group("vessels")
	r.m.Vessels.Payload = math.Inf(1)
	if v.Has(classes) {
		read(v, vesselRows[len(sizeKeys):], &r.m.Vessels)
		read(v, inherited("none", vesselRows, sizeKeys[1:]...), &r.m.Vessels)
	} else {
		read(v, vesselRows, &r.m.Vessels)
	}
	r.residence(v)
	maintenance(v.MapIf("maintenance"), &r.m.Vessels.Service, "a vessel")
	read(v, vesselOrderRows, r.p)
	if v.Has(classes) {
		r.classes(v)
	}
	r.roomKnown = make([]bool, r.m.Vessels.ClassCount())
}

// sizeKeys are the keys of vesselRows that a file with classes need not have; the first
// it must not have.
var sizeKeys = []string{"installed", "useful_volume", "payload"}

// longestOver is how many times the residence the longest one is, where it is left out.
const longestOver = 1.5

// residence reads the shortest and the longest residence, which stand about the
// one that is aimed at.
func (r *reader) residence(v *yamlfile.Map) {
	out := &r.m.Vessels
	out.Minimum, out.Maximum = out.Residence, duration(longestOver*float64(out.Residence))
	read(v, residenceRows, out)
	r.aboutAim(v, out)
}

// aboutAim refuses a shortest and a longest residence that do not stand about the one
// that is aimed at, where they are written or, of a class, where that is.
func (r *reader) aboutAim(v *yamlfile.Map, out *plant.Vessels) {
	aim := units.Format(float64(out.Residence), units.Duration, r.units)
	if v.Good("residence", "shortest_residence") && out.Minimum > out.Residence {
		v.Error(written(v, "shortest_residence"), "longer than the residence aimed at", "write at most "+aim+", or lengthen residence")
	}
	if v.Good("residence", "longest_residence") && out.Maximum < out.Residence {
		v.Error(written(v, "longest_residence"), "shorter than the residence aimed at", "write at least "+aim+", or shorten residence")
	}
}

// written returns a key of a group that has it, or that of the residence.
func written(v *yamlfile.Map, key string) string {
	if !v.Has(key) && v.Has("residence") {
		return "residence"
	}
	return key
}

func (r *reader) screen() {
	s := r.group("screen")
	settings := &r.m.Screening.Settings
	read(s, openingRows, settings)
	*settings = screening.DefaultSettings(settings.Opening)
	read(s, screenRows, settings)
	read(s, screeningRows, &r.m.Screening)
	r.gate(s)
}

func (r *reader) product() { read(r.group("product"), productRows, &r.m.Product) }
