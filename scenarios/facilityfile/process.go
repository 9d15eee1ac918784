package facilityfile

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
)

// defaults sets the physics that the file may change.
func (r *reader) defaults() {
	r.m.Bulk = material.DefaultBulk()
	r.m.Chemistry = material.DefaultChemistry()
	r.m.Active = process.DefaultVesselModel()
	r.m.Pile = process.DefaultCuringModel()
}

// criteria reads the time-temperature requirements. A file that lists some
// replaces the defaults.
func (r *reader) criteria() {
	if !r.root.Has("criteria") {
		return
	}
	r.m.Active.Criteria = nil
	for _, c := range r.root.ListIf("criteria") {
		var out process.Criterion
		read(c, criterionRows, &out)
		kind(c, &out)
		if c.Good("name", "where", "at_least", "above", "mean_above", "for", "peak_above", "peak_for", "equation") {
			if err := out.Validate(); err != nil {
				r.doc.ErrorAt(c.Position(), err.Error(), "")
			}
		}
		r.m.Active.Criteria = append(r.m.Active.Criteria, out)
	}
	r.m.Pile.Criteria = r.m.Active.Criteria
}

// kind reads the form of a criterion.
func kind(c *yamlfile.Map, out *process.Criterion) {
	switch {
	case c.Has("equation"):
		read(c, equationRows, out)
	case c.Has("above"):
		out.Kind = process.MeanAbove
		read(c, meanRows, out)
	case c.Has("peak_above"):
		out.Kind = process.HoldWithPeak
		read(c, holdRows, out)
		read(c, peakRows, out)
	default:
		out.Kind = process.Hold
		read(c, holdRows, out)
	}
}

// aeration reads how vessels are aerated.
func (r *reader) aeration() {
	a := r.root.MapIf("aeration")
	v := r.m.Active
	r.program(a, v)
	read(a, vesselAirRows, v)
	read(a, programRows[1:], v)
	r.vesselDrying(a)
	r.blowers(a)
}

// curingAir reads how curing piles are aerated. Air per dry mass is per initial
// dry tonne of a lot.
func (r *reader) curingAir(c *yamlfile.Map) {
	p := r.m.Pile
	read(c, pileAirRows, p)
	s := &p.Program[0]
	if c.Good("least_air", "most_air") && s.MinFlow > p.Blower.PerDry {
		key := "least_air"
		if !c.Has(key) {
			key = "most_air"
		}
		c.Error(key, fmt.Sprintf("the least air, %s m3/t·h, is more than the most, %s m3/t·h", units.FormatNumber(s.MinFlow), units.FormatNumber(p.Blower.PerDry)), "lower least_air or raise most_air")
	}
}

// together checks what concerns several groups at once.
func (r *reader) together() {
	v, c := r.group("vessels"), r.group("curing")
	if v.Present() && v.Good("residence", "shortest_residence") {
		r.beforeCompliance(v, r.m.Vessels.Minimum)
	}
	for i, c := range r.classAt {
		if class := &r.m.Vessels.Classes[i]; class.Minimum != 0 && c.Good("residence", "shortest_residence") {
			r.beforeCompliance(c, class.Minimum)
		}
	}
	if v.Present() && c.Present() && v.Good("residence", "longest_residence") && c.Good("time", "longest_time") {
		r.neverCompliance(c)
	}
}

// beforeCompliance refuses a residence that is over before a criterion of the
// vessel can be met; the longest such criterion is named.
func (r *reader) beforeCompliance(v *yamlfile.Map, minimum sim.Duration) {
	var longest process.Criterion
	for _, c := range r.m.Active.Criteria {
		if c.Where == process.InVessel && c.Hours > longest.Hours {
			longest = c
		}
	}
	if longest.Hours <= minimum.Hours() {
		return
	}
	key := "shortest_residence"
	if !v.Has(key) {
		key = "residence"
	}
	v.Error(key, fmt.Sprintf("a load would be released before it can comply: %s alone takes %s day in the vessel", longest.Name, units.FormatNumber(longest.Hours/24)),
		"lengthen it, or let the criterion be met in vessel and curing")
}

// neverCompliance refuses a stay in vessel and curing that is over before a
// criterion of both can be met.
func (r *reader) neverCompliance(c *yamlfile.Map) {
	stay := r.m.Vessels.Maximum
	for _, class := range r.m.Vessels.Classes {
		if class.Maximum != 0 {
			stay = min(stay, class.Maximum)
		}
	}
	most := stay.Hours() + r.m.Curing.Longest.Hours()
	for _, criterion := range r.m.Active.Criteria {
		if criterion.Where != process.InVesselAndCuring || criterion.Hours <= most {
			continue
		}
		key := "longest_time"
		if !c.Has(key) {
			key = "time"
		}
		c.Error(key, fmt.Sprintf("no load can ever comply: %s takes %s day, and vessel and curing together last at most %s day", criterion.Name, units.FormatNumber(criterion.Hours/24), units.FormatNumber(most/24)),
			"lengthen the longest residence or the longest curing time")
		return
	}
}
