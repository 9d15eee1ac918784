package facilityfile

import (
	"loamcast/facility/plant"
	"loamcast/facility/screening"
	"loamcast/scenarios/units"
	"loamcast/scenarios/yamlfile"
	"loamcast/sim"
)

const hour = 3600.0 // s

// duration turns seconds into a model's duration. What is no duration, such as a
// negative time, has been complained of where it was read.
func duration(seconds float64) sim.Duration {
	if !(seconds >= 0 && seconds <= 100*secondsPerYear) {
		return 0
	}
	return sim.DurationOf(seconds)
}

func (r *reader) holding() {
	h := r.group("holding")
	r.m.Holding = plant.Holding{
		Capacity:  h.Quantity("capacity_dry", units.Mass, yamlfile.Positive()),
		StartWith: h.QuantityOr("start_load_with", units.Fraction, 1, yamlfile.Between(0, 1)),
	}
}

func (r *reader) mix() {
	m := r.group("mix")
	r.m.Recipe.ChipsPerCake = m.Quantity("chips_to_cake", units.Ratio, yamlfile.Between(0.2, 10),
		yamlfile.Usually(2, 4, "below about 2.5 free air space falls under 20 %, Eftoda & McCartney, read; 2 failed at full scale, Ponsá et al., read"))
	r.m.Mixer = plant.Mixer{
		Volume:    m.Quantity("batch_volume", units.Volume, yamlfile.Positive()),
		Scale:     m.Quantity("batch_scale", units.Mass, yamlfile.Positive()),
		BatchTime: duration(m.Quantity("batch_time", units.Duration, yamlfile.Between(60, 24*hour))),
		Power:     m.QuantityOr("power", units.Power, 0, yamlfile.NonNegative()),
	}
}

// usualVesselLead is from order to first load: common practice, no source.
const usualVesselLead = secondsPerYear

func (r *reader) vessels() {
	v := r.group("vessels")
	out := &r.m.Vessels
	out.Installed = v.Int("installed", yamlfile.Between(1, mostUnits))
	out.Volume = v.Quantity("useful_volume", units.Volume, yamlfile.Positive())
	out.Payload = v.Quantity("payload", units.Mass, yamlfile.Positive())
	r.residence(v)
	out.Early = v.BoolOr("early_release", false)
	out.Turnaround = duration(v.QuantityOr("turnaround", units.Duration, 24*hour, yamlfile.Between(0, 60*24*hour)))
	out.PartFilled = duration(v.QuantityOr("part_filled_wait", units.Duration, 7*24*hour, yamlfile.Between(hour, secondsPerYear)))
	out.Service = r.maintenance(v.MapIf("maintenance"), "a vessel")
	r.p.VesselLead = duration(v.QuantityOr("lead_time", units.Duration, usualVesselLead, longestLead))
}

func (r *reader) residence(v *yamlfile.Map) {
	const practice = "10 to 20 days in practice, common practice, no source"
	target := v.Quantity("residence", units.Duration, yamlfile.Between(hour, secondsPerYear),
		yamlfile.Usually(10*24*hour, 21*24*hour, practice))
	shortest := v.QuantityOr("shortest_residence", units.Duration, target, yamlfile.Between(hour, secondsPerYear))
	longest := v.QuantityOr("longest_residence", units.Duration, target*1.5, yamlfile.Between(hour, secondsPerYear))
	aim := units.Format(target, units.Duration, r.units)
	if v.Good("residence", "shortest_residence") && shortest > target {
		v.Error("shortest_residence", "longer than the residence aimed at", "write at most "+aim+", or lengthen residence")
	}
	if v.Good("residence", "longest_residence") && longest < target {
		v.Error("longest_residence", "shorter than the residence aimed at", "write at least "+aim+", or shorten residence")
	}
	out := &r.m.Vessels
	out.Residence, out.Minimum, out.Maximum = duration(target), duration(shortest), duration(longest)
}

// leastThroughput, m3/h, keeps the screening of one lot within the years that
// the calendar of working hours reaches.
const leastThroughput = 0.1

var fastEnough = yamlfile.AtLeast(24 * leastThroughput)

// throughput turns m3/day, the unit of the file, into m3/h.
func throughput(perDay float64) float64 { return perDay / 24 }

// The order of curing and screening, as the file says it.
const (
	cureFirst   = "cure then screen"
	screenFirst = "screen then cure"
)

func (r *reader) screen() {
	s := r.group("screen")
	opening := s.Quantity("opening", units.Length, yamlfile.Between(0.002, 0.1),
		yamlfile.Usually(screening.SmallestOpening, screening.LargestOpening, "6 to 13 mm, from memory and practice"))
	d := screening.DefaultSettings(opening)
	d.Recovery = s.QuantityOr("recovery", units.Fraction, d.Recovery, yamlfile.Between(0, 1),
		yamlfile.Usually(0.65, 0.85, "65 to 85 % of the coarse chips, from memory and practice"))
	d.MoistureLimit = s.QuantityOr("moisture_limit", units.Fraction, d.MoistureLimit, yamlfile.Between(0.2, 0.8),
		yamlfile.Usually(0.44, 0.51, "45 to 50 %, from memory and practice"))
	d.CarryOver = s.QuantityOr("carry_over", units.Fraction, d.CarryOver, yamlfile.Between(0, 2))
	d.Rejects = s.QuantityOr("rejects", units.Fraction, d.Rejects, yamlfile.Between(0, 1))
	d.Attrition = s.QuantityOr("attrition", units.Fraction, d.Attrition, yamlfile.Between(0, 1))
	d.Capacity = throughput(s.Quantity("throughput", units.VolumePerTime, fastEnough))
	r.m.Screening.Settings = d
	r.m.Screening.Power = s.QuantityOr("power", units.Power, 0, yamlfile.NonNegative())
	r.m.Screening.First = s.OneOfOr("order", cureFirst, cureFirst, screenFirst) == screenFirst
}

func (r *reader) product() {
	p := r.group("product")
	r.m.Product = plant.Product{
		Capacity: p.Quantity("store", units.Volume, yamlfile.Positive()),
		Demand:   p.Monthly("demand_per_day", units.Volume, yamlfile.NonNegative()),
	}
}
