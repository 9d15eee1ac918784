package facilityfile

import (
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
	read(v, vesselRows, &r.m.Vessels)
	r.residence(v)
	maintenance(v.MapIf("maintenance"), &r.m.Vessels.Service, "a vessel")
	read(v, vesselOrderRows, r.p)
}

// residence reads the shortest and the longest residence, which stand about the
// one that is aimed at.
func (r *reader) residence(v *yamlfile.Map) {
	out := &r.m.Vessels
	out.Minimum, out.Maximum = out.Residence, duration(1.5*float64(out.Residence))
	read(v, residenceRows, out)
	aim := units.Format(float64(out.Residence), units.Duration, r.units)
	if v.Good("residence", "shortest_residence") && out.Minimum > out.Residence {
		v.Error("shortest_residence", "longer than the residence aimed at", "write at most "+aim+", or lengthen residence")
	}
	if v.Good("residence", "longest_residence") && out.Maximum < out.Residence {
		v.Error("longest_residence", "shorter than the residence aimed at", "write at least "+aim+", or shorten residence")
	}
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
