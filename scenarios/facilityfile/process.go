package facilityfile

import (
	"fmt"

	"loamcast/facility/material"
	"loamcast/facility/process"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
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
		out := process.Criterion{Name: c.Text("name")}
		if c.OneOf("where", "vessel", "vessel and curing") == "vessel and curing" {
			out.Where = process.InVesselAndCuring
		}
		r.kind(c, &out)
		if c.Good("name", "where", "at_least", "above", "mean_above", "for", "peak_above", "peak_for", "equation") {
			if err := out.Validate(); err != nil {
				r.doc.ErrorAt(c.Position(), err.Error(), "")
			}
		}
		r.m.Active.Criteria = append(r.m.Active.Criteria, out)
	}
	r.m.Pile.Criteria = r.m.Active.Criteria
}

func (r *reader) kind(c *yamlfile.Map, out *process.Criterion) {
	temperature := func(key string) float64 { return c.Quantity(key, units.Temperature, yamlfile.Between(20, 80)) }
	hours := func(key string) float64 {
		return c.Quantity(key, units.Duration, yamlfile.Between(hour/2, secondsPerYear)) / hour
	}
	switch {
	case c.Has("equation"):
		eq := process.TimeTemperature()
		if c.OneOf("equation", "solids 7 % and more", "solids below 7 %") == "solids below 7 %" {
			eq = process.TimeTemperatureThin()
		}
		eq.Name, eq.Where = out.Name, out.Where
		*out = eq
	case c.Has("above"):
		out.Kind = process.MeanAbove
		out.Temperature, out.Hours, out.Mean = temperature("above"), hours("for"), temperature("mean_above")
	case c.Has("peak_above"):
		out.Kind = process.HoldWithPeak
		out.Temperature, out.Hours = temperature("at_least"), hours("for")
		out.Peak, out.PeakHours = temperature("peak_above"), hours("peak_for")
	default:
		out.Kind = process.Hold
		out.Temperature, out.Hours = temperature("at_least"), hours("for")
	}
}

// aeration reads how vessels are aerated.
func (r *reader) aeration() {
	a := r.root.MapIf("aeration")
	v := r.m.Active
	if a.Has("program") {
		defaults := v.Program
		v.Program = nil
		for i, s := range a.List("program") {
			d := defaults[min(i, len(defaults)-1)]
			v.Program = append(v.Program, process.Segment{
				Name:     s.Text("name"),
				Hours:    s.Quantity("for", units.Duration, yamlfile.Between(hour, secondsPerYear)) / hour,
				Setpoint: s.Quantity("setpoint", units.Temperature, yamlfile.Between(20, 80)),
				MinFlow:  s.QuantityOr("least_air", units.VolumePerMassTime, d.MinFlow*24/1000, yamlfile.NonNegative()) * 1000 / 24,
			})
		}
	}
	if a.Has("blower_per_vessel") {
		v.Blower.Capacity = a.Quantity("blower_per_vessel", units.AirFlow, yamlfile.Positive()) / 24
	}
	r.blowers(a)
	if a.Has("wall_loss") {
		loss := a.Quantity("wall_loss", units.PowerPerTemperature, yamlfile.NonNegative()) // kW/K
		v.Enclosure.Conductance = loss * 1000 / v.Enclosure.Area
	}
}

// curingAir reads how curing piles are aerated. Air per dry mass is per initial
// dry tonne of a lot.
func (r *reader) curingAir(c *yamlfile.Map) {
	p := r.m.Pile
	perTonne := func(key string, def float64, check yamlfile.Check) float64 {
		return c.QuantityOr(key, units.VolumePerMassTime, def*24/1000, check) * 1000 / 24
	}
	s := &p.Program[0]
	if c.Has("setpoint") {
		s.Setpoint = c.Quantity("setpoint", units.Temperature, yamlfile.Between(20, 80))
	}
	s.MinFlow = perTonne("least_air", s.MinFlow, yamlfile.NonNegative())
	p.Blower.PerDry = perTonne("most_air", p.Blower.PerDry, yamlfile.Positive())
	if c.Good("least_air", "most_air") && s.MinFlow > p.Blower.PerDry {
		key := "least_air"
		if !c.Has(key) {
			key = "most_air"
		}
		c.Error(key, fmt.Sprintf("the least air, %.3g m3/t·h, is more than the most, %.3g m3/t·h", s.MinFlow, p.Blower.PerDry), "lower least_air or raise most_air")
	}
}

// together checks what concerns several groups at once.
func (r *reader) together() {
	v, c := r.group("vessels"), r.group("curing")
	if v.Present() && v.Good("residence", "shortest_residence") {
		r.beforeCompliance(v)
	}
	if v.Present() && c.Present() && v.Good("residence", "longest_residence") && c.Good("time", "longest_time") {
		r.neverCompliance(c)
	}
}

// beforeCompliance refuses a residence that is over before a criterion of the
// vessel can be met; the longest such criterion is named.
func (r *reader) beforeCompliance(v *yamlfile.Map) {
	var longest process.Criterion
	for _, c := range r.m.Active.Criteria {
		if c.Where == process.InVessel && c.Hours > longest.Hours {
			longest = c
		}
	}
	if longest.Hours <= r.m.Vessels.Minimum.Hours() {
		return
	}
	key := "shortest_residence"
	if !v.Has(key) {
		key = "residence"
	}
	v.Error(key, fmt.Sprintf("a load would be released before it can comply: %s alone takes %.3g day in the vessel", longest.Name, longest.Hours/24),
		"lengthen it, or let the criterion be met in vessel and curing")
}

// neverCompliance refuses a stay in vessel and curing that is over before a
// criterion of both can be met.
func (r *reader) neverCompliance(c *yamlfile.Map) {
	most := r.m.Vessels.Maximum.Hours() + r.m.Curing.Longest.Hours()
	for _, criterion := range r.m.Active.Criteria {
		if criterion.Where != process.InVesselAndCuring || criterion.Hours <= most {
			continue
		}
		key := "longest_time"
		if !c.Has(key) {
			key = "time"
		}
		c.Error(key, fmt.Sprintf("no load can ever comply: %s takes %.3g day, and vessel and curing together last at most %.3g day", criterion.Name, criterion.Hours/24, most/24),
			"lengthen the longest residence or the longest curing time")
		return
	}
}
