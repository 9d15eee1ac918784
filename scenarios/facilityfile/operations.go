package facilityfile

import (
	"fmt"

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
	}
}

func (r *reader) vessels() {
	v := r.group("vessels")
	out := &r.m.Vessels
	out.Installed = v.Int("installed", yamlfile.Between(1, 1000))
	r.additions(v)
	out.Volume = v.Quantity("useful_volume", units.Volume, yamlfile.Positive())
	out.Payload = v.Quantity("payload", units.Mass, yamlfile.Positive())
	r.residence(v)
	out.Early = v.BoolOr("early_release", false)
	out.Turnaround = duration(v.QuantityOr("turnaround", units.Duration, 24*hour, yamlfile.Between(0, 60*24*hour)))
	out.PartFilled = duration(v.QuantityOr("part_filled_wait", units.Duration, 7*24*hour, yamlfile.Between(hour, secondsPerYear)))
}

// additions reads the vessels that are added on dates, within the room there is.
func (r *reader) additions(v *yamlfile.Map) {
	out := &r.m.Vessels
	room := v.IntOr("room_for", out.Installed, yamlfile.Positive())
	limited := v.Has("room_for") && v.Good("room_for", "installed")
	if limited && room < out.Installed {
		v.Error("room_for", fmt.Sprintf("there is room for %d vessels but %d are installed", room, out.Installed), "correct one of the two")
		limited = false
	}
	end := r.m.Start.AddYears(r.m.Years)
	total := out.Installed
	var before calendar.Date
	for _, a := range v.ListIf("additions") {
		add := plant.Change{Name: "vessels added", Date: dateOf(a.Date("date")), Vessels: a.Int("count", yamlfile.Between(1, 1000))}
		total += add.Vessels
		switch {
		case !a.Good("date"):
		case add.Date.Before(before):
			a.Error("date", "the additions are not in order of their dates", "put the earliest first")
		case r.root.Good("start", "horizon") && !add.Date.Before(end):
			a.Warn("date", "these vessels come after the last day simulated and change nothing", fmt.Sprintf("the run ends before %v", end))
		}
		if limited && a.Good("count") && total > room {
			a.Error("count", fmt.Sprintf("with this addition there are %d vessels, but room for %d", total, room), "raise room_for or add fewer")
		}
		before = add.Date
		r.m.Changes = append(r.m.Changes, add)
	}
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

func (r *reader) curing() {
	c := r.group("curing")
	time := c.Quantity("time", units.Duration, yamlfile.Between(hour, 3*secondsPerYear),
		yamlfile.Usually(21*24*hour, 180*24*hour, "a month or more, common practice, no source"))
	longest := c.QuantityOr("longest_time", units.Duration, 2*time, yamlfile.Between(hour, 6*secondsPerYear))
	if c.Good("time", "longest_time") && longest < time {
		c.Error("longest_time", "shorter than the curing time", "write at least "+units.Format(time, units.Duration, r.units)+", or shorten time")
	}
	r.curingAir(c.MapIf("aeration"))
	r.m.Curing = plant.Curing{
		Capacity:    c.Quantity("pad", units.Volume, yamlfile.Positive()),
		Time:        duration(time),
		Longest:     duration(longest),
		ReadilyLeft: c.QuantityOr("readily_left", units.Fraction, 1, yamlfile.Positive(), yamlfile.AtMost(1)),
	}
}

// leastThroughput, m3/h, keeps the screening of one lot within the years that
// the calendar of working hours reaches.
const leastThroughput = 0.1

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
	d.Capacity = s.Quantity("throughput", units.VolumePerTime, yamlfile.AtLeast(24*leastThroughput)) / 24
	r.m.Screening.Settings = d
}

func (r *reader) product() {
	p := r.group("product")
	r.m.Product = plant.Product{
		Capacity: p.Quantity("store", units.Volume, yamlfile.Positive()),
		Demand:   p.Monthly("demand_per_day", units.Volume, yamlfile.NonNegative()),
	}
}
